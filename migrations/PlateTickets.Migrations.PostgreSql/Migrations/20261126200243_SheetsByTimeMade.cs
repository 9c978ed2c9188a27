using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PlateTickets.Migrations.PostgreSql.Migrations
{
    /// <inheritdoc />
    public partial class SheetsByTimeMade : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateIndex(
                name: "IX_Sheets_MadeUtc",
                table: "Sheets",
                column: "MadeUtc");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_Sheets_MadeUtc",
                table: "Sheets");
        }
    }
}

using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PlateTickets.Migrations.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class FiguresByTime : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateIndex(
                name: "IX_Tickets_DoneUtc",
                table: "Tickets",
                column: "DoneUtc");

            migrationBuilder.CreateIndex(
                name: "IX_Sheets_DoneUtc",
                table: "Sheets",
                column: "DoneUtc");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_Tickets_DoneUtc",
                table: "Tickets");

            migrationBuilder.DropIndex(
                name: "IX_Sheets_DoneUtc",
                table: "Sheets");
        }
    }
}

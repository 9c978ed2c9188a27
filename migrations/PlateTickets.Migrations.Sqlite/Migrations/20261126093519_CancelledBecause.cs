using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PlateTickets.Migrations.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class CancelledBecause : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "CancelledBecause",
                table: "Tickets",
                type: "TEXT",
                maxLength: 400,
                nullable: false,
                defaultValue: "");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "CancelledBecause",
                table: "Tickets");
        }
    }
}

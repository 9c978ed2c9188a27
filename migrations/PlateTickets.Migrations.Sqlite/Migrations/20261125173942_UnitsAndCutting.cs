using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PlateTickets.Migrations.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class UnitsAndCutting : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<bool>(
                name: "RunIsAttended",
                table: "Stages",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<string>(
                name: "Units",
                table: "Sites",
                type: "TEXT",
                nullable: false,
                defaultValue: "Metric");

            migrationBuilder.AddColumn<int>(
                name: "PlateCount",
                table: "Sheets",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.Sql("UPDATE Sheets SET PlateCount = (SELECT COUNT(*) FROM Placements WHERE Placements.SheetId = Sheets.Id)");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "RunIsAttended",
                table: "Stages");

            migrationBuilder.DropColumn(
                name: "Units",
                table: "Sites");

            migrationBuilder.DropColumn(
                name: "PlateCount",
                table: "Sheets");
        }
    }
}

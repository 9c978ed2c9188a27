using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PlateTickets.Migrations.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class ShiftsAndHandovers : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "Handovers",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    ShiftName = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Day = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    StartUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    EndUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    State = table.Column<string>(type: "TEXT", nullable: false),
                    Notes = table.Column<string>(type: "TEXT", maxLength: 8000, nullable: false),
                    NotesBy = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    NotesUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Facts = table.Column<string>(type: "TEXT", maxLength: 1000000, nullable: true),
                    ClosedBy = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    ClosedUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    ConfirmedBy = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    ConfirmedUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Remark = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    Version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Handovers", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "ShiftGoals",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    ShiftName = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    ShiftStartUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Station = table.Column<string>(type: "TEXT", nullable: false),
                    Sheets = table.Column<int>(type: "INTEGER", nullable: false),
                    TakenUtc = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ShiftGoals", x => x.Id);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Stages_FinishedUtc",
                table: "Stages",
                column: "FinishedUtc");

            migrationBuilder.CreateIndex(
                name: "IX_Handovers_StartUtc_ShiftName",
                table: "Handovers",
                columns: new[] { "StartUtc", "ShiftName" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ShiftGoals_ShiftStartUtc_ShiftName_Station",
                table: "ShiftGoals",
                columns: new[] { "ShiftStartUtc", "ShiftName", "Station" },
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Handovers");

            migrationBuilder.DropTable(
                name: "ShiftGoals");

            migrationBuilder.DropIndex(
                name: "IX_Stages_FinishedUtc",
                table: "Stages");
        }
    }
}

using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PlateTickets.Migrations.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class StationWork : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "Drawer",
                table: "Stages",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "Repeats",
                table: "Stages",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<string>(
                name: "SkippedBecause",
                table: "Stages",
                type: "TEXT",
                maxLength: 400,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<int>(
                name: "ClockBehindSeconds",
                table: "Scans",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<string>(
                name: "Of",
                table: "Scans",
                type: "TEXT",
                maxLength: 400,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<bool>(
                name: "Offline",
                table: "Scans",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<int>(
                name: "Ticked",
                table: "Scans",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<int>(
                name: "RemakeOfPlateId",
                table: "Plates",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "Replaced",
                table: "Plates",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.CreateTable(
                name: "Remakes",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    TicketId = table.Column<int>(type: "INTEGER", nullable: false),
                    SheetId = table.Column<int>(type: "INTEGER", nullable: false),
                    PlateId = table.Column<int>(type: "INTEGER", nullable: false),
                    NewPlateId = table.Column<int>(type: "INTEGER", nullable: false),
                    Defect = table.Column<string>(type: "TEXT", nullable: false),
                    Reason = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    CausedAt = table.Column<string>(type: "TEXT", nullable: true),
                    FoundAt = table.Column<string>(type: "TEXT", nullable: true),
                    AtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    By = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    AreaUm2 = table.Column<long>(type: "INTEGER", nullable: false),
                    SpentSeconds = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Remakes", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Remakes_Plates_NewPlateId",
                        column: x => x.NewPlateId,
                        principalTable: "Plates",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Remakes_Plates_PlateId",
                        column: x => x.PlateId,
                        principalTable: "Plates",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Remakes_Sheets_SheetId",
                        column: x => x.SheetId,
                        principalTable: "Sheets",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Remakes_Tickets_TicketId",
                        column: x => x.TicketId,
                        principalTable: "Tickets",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "StageDecisions",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    SheetId = table.Column<int>(type: "INTEGER", nullable: false),
                    Station = table.Column<string>(type: "TEXT", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    Reason = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    By = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    AtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    LostSeconds = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_StageDecisions", x => x.Id);
                    table.ForeignKey(
                        name: "FK_StageDecisions_Sheets_SheetId",
                        column: x => x.SheetId,
                        principalTable: "Sheets",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "StageReadings",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    SheetId = table.Column<int>(type: "INTEGER", nullable: false),
                    Station = table.Column<string>(type: "TEXT", nullable: false),
                    EquipmentId = table.Column<int>(type: "INTEGER", nullable: true),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    Value = table.Column<int>(type: "INTEGER", nullable: true),
                    From = table.Column<int>(type: "INTEGER", nullable: true),
                    To = table.Column<int>(type: "INTEGER", nullable: true),
                    Text = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    State = table.Column<string>(type: "TEXT", nullable: false),
                    Sentence = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    AtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    By = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Reason = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    DecidedBy = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    DecidedUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_StageReadings", x => x.Id);
                    table.ForeignKey(
                        name: "FK_StageReadings_Equipment_EquipmentId",
                        column: x => x.EquipmentId,
                        principalTable: "Equipment",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_StageReadings_Sheets_SheetId",
                        column: x => x.SheetId,
                        principalTable: "Sheets",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Remakes_AtUtc",
                table: "Remakes",
                column: "AtUtc");

            migrationBuilder.CreateIndex(
                name: "IX_Remakes_NewPlateId",
                table: "Remakes",
                column: "NewPlateId");

            migrationBuilder.CreateIndex(
                name: "IX_Remakes_PlateId",
                table: "Remakes",
                column: "PlateId");

            migrationBuilder.CreateIndex(
                name: "IX_Remakes_SheetId",
                table: "Remakes",
                column: "SheetId");

            migrationBuilder.CreateIndex(
                name: "IX_Remakes_TicketId",
                table: "Remakes",
                column: "TicketId");

            migrationBuilder.CreateIndex(
                name: "IX_StageDecisions_SheetId",
                table: "StageDecisions",
                column: "SheetId");

            migrationBuilder.CreateIndex(
                name: "IX_StageReadings_EquipmentId",
                table: "StageReadings",
                column: "EquipmentId");

            migrationBuilder.CreateIndex(
                name: "IX_StageReadings_Kind_AtUtc",
                table: "StageReadings",
                columns: new[] { "Kind", "AtUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_StageReadings_SheetId_State",
                table: "StageReadings",
                columns: new[] { "SheetId", "State" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Remakes");

            migrationBuilder.DropTable(
                name: "StageDecisions");

            migrationBuilder.DropTable(
                name: "StageReadings");

            migrationBuilder.DropColumn(
                name: "Drawer",
                table: "Stages");

            migrationBuilder.DropColumn(
                name: "Repeats",
                table: "Stages");

            migrationBuilder.DropColumn(
                name: "SkippedBecause",
                table: "Stages");

            migrationBuilder.DropColumn(
                name: "ClockBehindSeconds",
                table: "Scans");

            migrationBuilder.DropColumn(
                name: "Of",
                table: "Scans");

            migrationBuilder.DropColumn(
                name: "Offline",
                table: "Scans");

            migrationBuilder.DropColumn(
                name: "Ticked",
                table: "Scans");

            migrationBuilder.DropColumn(
                name: "RemakeOfPlateId",
                table: "Plates");

            migrationBuilder.DropColumn(
                name: "Replaced",
                table: "Plates");
        }
    }
}

using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PlateTickets.Migrations.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class FirstRoom : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "AuditEntries",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    AtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    By = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Record = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Key = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Field = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    From = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: true),
                    To = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AuditEntries", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Customers",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Name = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Customers", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Equipment",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Name = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Slug = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    Slots = table.Column<int>(type: "INTEGER", nullable: false),
                    Serves = table.Column<string>(type: "TEXT", nullable: false),
                    Process = table.Column<string>(type: "TEXT", nullable: true),
                    ChangeoverSeconds = table.Column<int>(type: "INTEGER", nullable: false),
                    DrumRpm = table.Column<double>(type: "REAL", nullable: true),
                    LaserChannels = table.Column<int>(type: "INTEGER", nullable: true),
                    LineLengthMm = table.Column<double>(type: "REAL", nullable: true),
                    LineGapMm = table.Column<double>(type: "REAL", nullable: true),
                    ReadingValidHours = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Equipment", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Materials",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Name = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    ThicknessUm = table.Column<int>(type: "INTEGER", nullable: false),
                    BaseUm = table.Column<int>(type: "INTEGER", nullable: false),
                    Process = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Materials", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "NumberSequences",
                columns: table => new
                {
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    Next = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_NumberSequences", x => x.Kind);
                });

            migrationBuilder.CreateTable(
                name: "Sites",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Name = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    TimeZoneId = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    IsDemo = table.Column<bool>(type: "INTEGER", nullable: false),
                    KnifeGapUm = table.Column<int>(type: "INTEGER", nullable: false),
                    ClampMarginUm = table.Column<int>(type: "INTEGER", nullable: false),
                    SideMarginUm = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Sites", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "LampReadings",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    EquipmentId = table.Column<int>(type: "INTEGER", nullable: false),
                    Bank = table.Column<string>(type: "TEXT", nullable: false),
                    IrradianceMwPerCm2 = table.Column<double>(type: "REAL", nullable: false),
                    ReadUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ReadBy = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_LampReadings", x => x.Id);
                    table.ForeignKey(
                        name: "FK_LampReadings_Equipment_EquipmentId",
                        column: x => x.EquipmentId,
                        principalTable: "Equipment",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Presses",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Name = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    UsualMaterialId = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Presses", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Presses_Materials_UsualMaterialId",
                        column: x => x.UsualMaterialId,
                        principalTable: "Materials",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "StepTests",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    MaterialId = table.Column<int>(type: "INTEGER", nullable: false),
                    EquipmentId = table.Column<int>(type: "INTEGER", nullable: false),
                    Lot = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    IrradianceMwPerCm2 = table.Column<double>(type: "REAL", nullable: false),
                    MadeUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    MadeBy = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Steps = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_StepTests", x => x.Id);
                    table.ForeignKey(
                        name: "FK_StepTests_Equipment_EquipmentId",
                        column: x => x.EquipmentId,
                        principalTable: "Equipment",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_StepTests_Materials_MaterialId",
                        column: x => x.MaterialId,
                        principalTable: "Materials",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "StockSizes",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    MaterialId = table.Column<int>(type: "INTEGER", nullable: false),
                    WidthUm = table.Column<int>(type: "INTEGER", nullable: false),
                    LengthUm = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_StockSizes", x => x.Id);
                    table.ForeignKey(
                        name: "FK_StockSizes_Materials_MaterialId",
                        column: x => x.MaterialId,
                        principalTable: "Materials",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "ClosedDay",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    SiteId = table.Column<int>(type: "INTEGER", nullable: false),
                    Day = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    Reason = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ClosedDay", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ClosedDay_Sites_SiteId",
                        column: x => x.SiteId,
                        principalTable: "Sites",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "ShiftEntry",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    SiteId = table.Column<int>(type: "INTEGER", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Days = table.Column<string>(type: "TEXT", nullable: false),
                    Start = table.Column<TimeOnly>(type: "TEXT", nullable: false),
                    End = table.Column<TimeOnly>(type: "TEXT", nullable: false),
                    Breaks = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ShiftEntry", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ShiftEntry_Sites_SiteId",
                        column: x => x.SiteId,
                        principalTable: "Sites",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Cylinder",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    PressId = table.Column<int>(type: "INTEGER", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    RepeatUm = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Cylinder", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Cylinder_Presses_PressId",
                        column: x => x.PressId,
                        principalTable: "Presses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Orders",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Number = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    CustomerId = table.Column<int>(type: "INTEGER", nullable: false),
                    Title = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    PressId = table.Column<int>(type: "INTEGER", nullable: false),
                    RepeatUm = table.Column<int>(type: "INTEGER", nullable: false),
                    MaterialId = table.Column<int>(type: "INTEGER", nullable: false),
                    DueUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Copies = table.Column<int>(type: "INTEGER", nullable: false),
                    EnteredUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    EnteredBy = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Orders", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Orders_Customers_CustomerId",
                        column: x => x.CustomerId,
                        principalTable: "Customers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Orders_Materials_MaterialId",
                        column: x => x.MaterialId,
                        principalTable: "Materials",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Orders_Presses_PressId",
                        column: x => x.PressId,
                        principalTable: "Presses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "RecipeRevisions",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    MaterialId = table.Column<int>(type: "INTEGER", nullable: false),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    State = table.Column<string>(type: "TEXT", nullable: false),
                    Settings = table.Column<string>(type: "TEXT", maxLength: 8000, nullable: false),
                    ReleasedUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ReleasedBy = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    StepTestId = table.Column<int>(type: "INTEGER", nullable: true),
                    Doubt = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Note = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_RecipeRevisions", x => x.Id);
                    table.ForeignKey(
                        name: "FK_RecipeRevisions_Materials_MaterialId",
                        column: x => x.MaterialId,
                        principalTable: "Materials",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "FK_RecipeRevisions_StepTests_StepTestId",
                        column: x => x.StepTestId,
                        principalTable: "StepTests",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Tickets",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false),
                    State = table.Column<string>(type: "TEXT", nullable: false),
                    Weight = table.Column<double>(type: "REAL", nullable: false),
                    DoneUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Tickets", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Tickets_Orders_Id",
                        column: x => x.Id,
                        principalTable: "Orders",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Sheets",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Number = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    MaterialId = table.Column<int>(type: "INTEGER", nullable: false),
                    RecipeRevisionId = table.Column<int>(type: "INTEGER", nullable: false),
                    WidthUm = table.Column<int>(type: "INTEGER", nullable: false),
                    LengthUm = table.Column<int>(type: "INTEGER", nullable: false),
                    AxialExtentUm = table.Column<int>(type: "INTEGER", nullable: false),
                    State = table.Column<string>(type: "TEXT", nullable: false),
                    CurrentStation = table.Column<string>(type: "TEXT", nullable: true),
                    HoldReason = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    MadeUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    DoneUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Prints = table.Column<int>(type: "INTEGER", nullable: false),
                    Version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Sheets", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Sheets_Materials_MaterialId",
                        column: x => x.MaterialId,
                        principalTable: "Materials",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Sheets_RecipeRevisions_RecipeRevisionId",
                        column: x => x.RecipeRevisionId,
                        principalTable: "RecipeRevisions",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Separations",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    TicketId = table.Column<int>(type: "INTEGER", nullable: false),
                    Colour = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    ColourFrom = table.Column<string>(type: "TEXT", nullable: false),
                    FileName = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Sha256 = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    FileBytes = table.Column<long>(type: "INTEGER", nullable: false),
                    WidthPixels = table.Column<int>(type: "INTEGER", nullable: false),
                    HeightPixels = table.Column<int>(type: "INTEGER", nullable: false),
                    XPixelsPerMm = table.Column<double>(type: "REAL", nullable: false),
                    YPixelsPerMm = table.Column<double>(type: "REAL", nullable: false),
                    WidthUm = table.Column<int>(type: "INTEGER", nullable: false),
                    LengthUm = table.Column<int>(type: "INTEGER", nullable: false),
                    LengthVerdict = table.Column<string>(type: "TEXT", nullable: false),
                    AcceptedBecause = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Separations", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Separations_Tickets_TicketId",
                        column: x => x.TicketId,
                        principalTable: "Tickets",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Scans",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Code = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    SheetId = table.Column<int>(type: "INTEGER", nullable: true),
                    EquipmentId = table.Column<int>(type: "INTEGER", nullable: false),
                    Station = table.Column<string>(type: "TEXT", nullable: true),
                    Action = table.Column<string>(type: "TEXT", nullable: false),
                    Confirmed = table.Column<bool>(type: "INTEGER", nullable: false),
                    By = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    ReadUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ReceivedUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Outcome = table.Column<string>(type: "TEXT", nullable: false),
                    Sentence = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Scans", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Scans_Equipment_EquipmentId",
                        column: x => x.EquipmentId,
                        principalTable: "Equipment",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Scans_Sheets_SheetId",
                        column: x => x.SheetId,
                        principalTable: "Sheets",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Stages",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    SheetId = table.Column<int>(type: "INTEGER", nullable: false),
                    Station = table.Column<string>(type: "TEXT", nullable: false),
                    State = table.Column<string>(type: "TEXT", nullable: false),
                    EquipmentId = table.Column<int>(type: "INTEGER", nullable: true),
                    LoadSeconds = table.Column<int>(type: "INTEGER", nullable: false),
                    RunSeconds = table.Column<int>(type: "INTEGER", nullable: false),
                    UnloadSeconds = table.Column<int>(type: "INTEGER", nullable: false),
                    OccupiesSeconds = table.Column<int>(type: "INTEGER", nullable: false),
                    RestAfterSeconds = table.Column<int>(type: "INTEGER", nullable: false),
                    Explanation = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Flags = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    PlannedStartUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    PlannedFinishUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    DueByUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    StartedUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    StartedBy = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    FinishedUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    FinishedBy = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Stages", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Stages_Equipment_EquipmentId",
                        column: x => x.EquipmentId,
                        principalTable: "Equipment",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Stages_Sheets_SheetId",
                        column: x => x.SheetId,
                        principalTable: "Sheets",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Plates",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    TicketId = table.Column<int>(type: "INTEGER", nullable: false),
                    SeparationId = table.Column<int>(type: "INTEGER", nullable: false),
                    Copy = table.Column<int>(type: "INTEGER", nullable: false),
                    WidthUm = table.Column<int>(type: "INTEGER", nullable: false),
                    LengthUm = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Plates", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Plates_Separations_SeparationId",
                        column: x => x.SeparationId,
                        principalTable: "Separations",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Plates_Tickets_TicketId",
                        column: x => x.TicketId,
                        principalTable: "Tickets",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Placements",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    SheetId = table.Column<int>(type: "INTEGER", nullable: false),
                    PlateId = table.Column<int>(type: "INTEGER", nullable: false),
                    Mark = table.Column<int>(type: "INTEGER", nullable: false),
                    XUm = table.Column<int>(type: "INTEGER", nullable: false),
                    YUm = table.Column<int>(type: "INTEGER", nullable: false),
                    WidthUm = table.Column<int>(type: "INTEGER", nullable: false),
                    LengthUm = table.Column<int>(type: "INTEGER", nullable: false),
                    Rotated = table.Column<bool>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Placements", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Placements_Plates_PlateId",
                        column: x => x.PlateId,
                        principalTable: "Plates",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "FK_Placements_Sheets_SheetId",
                        column: x => x.SheetId,
                        principalTable: "Sheets",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_AuditEntries_Record_Key",
                table: "AuditEntries",
                columns: new[] { "Record", "Key" });

            migrationBuilder.CreateIndex(
                name: "IX_ClosedDay_SiteId",
                table: "ClosedDay",
                column: "SiteId");

            migrationBuilder.CreateIndex(
                name: "IX_Customers_Name",
                table: "Customers",
                column: "Name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Cylinder_PressId",
                table: "Cylinder",
                column: "PressId");

            migrationBuilder.CreateIndex(
                name: "IX_Equipment_Slug",
                table: "Equipment",
                column: "Slug",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_LampReadings_EquipmentId_Bank_ReadUtc",
                table: "LampReadings",
                columns: new[] { "EquipmentId", "Bank", "ReadUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_Materials_Name",
                table: "Materials",
                column: "Name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Orders_CustomerId",
                table: "Orders",
                column: "CustomerId");

            migrationBuilder.CreateIndex(
                name: "IX_Orders_DueUtc",
                table: "Orders",
                column: "DueUtc");

            migrationBuilder.CreateIndex(
                name: "IX_Orders_MaterialId",
                table: "Orders",
                column: "MaterialId");

            migrationBuilder.CreateIndex(
                name: "IX_Orders_Number",
                table: "Orders",
                column: "Number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Orders_PressId",
                table: "Orders",
                column: "PressId");

            migrationBuilder.CreateIndex(
                name: "IX_Placements_PlateId",
                table: "Placements",
                column: "PlateId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Placements_SheetId",
                table: "Placements",
                column: "SheetId");

            migrationBuilder.CreateIndex(
                name: "IX_Plates_SeparationId",
                table: "Plates",
                column: "SeparationId");

            migrationBuilder.CreateIndex(
                name: "IX_Plates_TicketId",
                table: "Plates",
                column: "TicketId");

            migrationBuilder.CreateIndex(
                name: "IX_Presses_Name",
                table: "Presses",
                column: "Name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Presses_UsualMaterialId",
                table: "Presses",
                column: "UsualMaterialId");

            migrationBuilder.CreateIndex(
                name: "IX_RecipeRevisions_MaterialId_Number",
                table: "RecipeRevisions",
                columns: new[] { "MaterialId", "Number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_RecipeRevisions_StepTestId",
                table: "RecipeRevisions",
                column: "StepTestId");

            migrationBuilder.CreateIndex(
                name: "IX_Scans_EquipmentId",
                table: "Scans",
                column: "EquipmentId");

            migrationBuilder.CreateIndex(
                name: "IX_Scans_SheetId_ReadUtc",
                table: "Scans",
                columns: new[] { "SheetId", "ReadUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_Separations_Sha256",
                table: "Separations",
                column: "Sha256");

            migrationBuilder.CreateIndex(
                name: "IX_Separations_TicketId",
                table: "Separations",
                column: "TicketId");

            migrationBuilder.CreateIndex(
                name: "IX_Sheets_MaterialId",
                table: "Sheets",
                column: "MaterialId");

            migrationBuilder.CreateIndex(
                name: "IX_Sheets_Number",
                table: "Sheets",
                column: "Number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Sheets_RecipeRevisionId",
                table: "Sheets",
                column: "RecipeRevisionId");

            migrationBuilder.CreateIndex(
                name: "IX_Sheets_State",
                table: "Sheets",
                column: "State");

            migrationBuilder.CreateIndex(
                name: "IX_ShiftEntry_SiteId",
                table: "ShiftEntry",
                column: "SiteId");

            migrationBuilder.CreateIndex(
                name: "IX_Stages_EquipmentId_State",
                table: "Stages",
                columns: new[] { "EquipmentId", "State" });

            migrationBuilder.CreateIndex(
                name: "IX_Stages_SheetId_Station",
                table: "Stages",
                columns: new[] { "SheetId", "Station" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_StepTests_EquipmentId",
                table: "StepTests",
                column: "EquipmentId");

            migrationBuilder.CreateIndex(
                name: "IX_StepTests_MadeUtc",
                table: "StepTests",
                column: "MadeUtc");

            migrationBuilder.CreateIndex(
                name: "IX_StepTests_MaterialId",
                table: "StepTests",
                column: "MaterialId");

            migrationBuilder.CreateIndex(
                name: "IX_StockSizes_MaterialId",
                table: "StockSizes",
                column: "MaterialId");

            migrationBuilder.CreateIndex(
                name: "IX_Tickets_State",
                table: "Tickets",
                column: "State");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "AuditEntries");

            migrationBuilder.DropTable(
                name: "ClosedDay");

            migrationBuilder.DropTable(
                name: "Cylinder");

            migrationBuilder.DropTable(
                name: "LampReadings");

            migrationBuilder.DropTable(
                name: "NumberSequences");

            migrationBuilder.DropTable(
                name: "Placements");

            migrationBuilder.DropTable(
                name: "Scans");

            migrationBuilder.DropTable(
                name: "ShiftEntry");

            migrationBuilder.DropTable(
                name: "Stages");

            migrationBuilder.DropTable(
                name: "StockSizes");

            migrationBuilder.DropTable(
                name: "Plates");

            migrationBuilder.DropTable(
                name: "Sites");

            migrationBuilder.DropTable(
                name: "Sheets");

            migrationBuilder.DropTable(
                name: "Separations");

            migrationBuilder.DropTable(
                name: "RecipeRevisions");

            migrationBuilder.DropTable(
                name: "Tickets");

            migrationBuilder.DropTable(
                name: "StepTests");

            migrationBuilder.DropTable(
                name: "Orders");

            migrationBuilder.DropTable(
                name: "Equipment");

            migrationBuilder.DropTable(
                name: "Customers");

            migrationBuilder.DropTable(
                name: "Presses");

            migrationBuilder.DropTable(
                name: "Materials");
        }
    }
}

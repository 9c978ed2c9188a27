using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PlateTickets.Migrations.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class StockAndLayouts : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "LeastSheets",
                table: "StockSizes",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<int>(
                name: "LeastRemnantUm",
                table: "Sites",
                type: "INTEGER",
                nullable: false,
                defaultValue: 300000);

            migrationBuilder.AddColumn<int>(
                name: "FromLengthUm",
                table: "Sheets",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<int>(
                name: "FromWidthUm",
                table: "Sheets",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<int>(
                name: "LayoutId",
                table: "Sheets",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "Lot",
                table: "Sheets",
                type: "TEXT",
                maxLength: 400,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "RemnantMark",
                table: "Sheets",
                type: "TEXT",
                maxLength: 400,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<int>(
                name: "StockLotId",
                table: "Sheets",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "Remnants",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    MaterialId = table.Column<int>(type: "INTEGER", nullable: false),
                    WidthUm = table.Column<int>(type: "INTEGER", nullable: false),
                    LengthUm = table.Column<int>(type: "INTEGER", nullable: false),
                    Lot = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    ExpiresOn = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    MadeUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    FromSheetId = table.Column<int>(type: "INTEGER", nullable: false),
                    TakenBySheetId = table.Column<int>(type: "INTEGER", nullable: true),
                    GoneBecause = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Remnants", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Remnants_Materials_MaterialId",
                        column: x => x.MaterialId,
                        principalTable: "Materials",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "SheetLayouts",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    MaterialId = table.Column<int>(type: "INTEGER", nullable: false),
                    ReleasedUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ReleasedBy = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    UndoneUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    UndoneBy = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SheetLayouts", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "StockLots",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    StockSizeId = table.Column<int>(type: "INTEGER", nullable: false),
                    Lot = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Sheets = table.Column<int>(type: "INTEGER", nullable: false),
                    ReceivedUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ExpiresOn = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    Version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_StockLots", x => x.Id);
                    table.ForeignKey(
                        name: "FK_StockLots_StockSizes_StockSizeId",
                        column: x => x.StockSizeId,
                        principalTable: "StockSizes",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Sheets_LayoutId",
                table: "Sheets",
                column: "LayoutId");

            migrationBuilder.CreateIndex(
                name: "IX_Sheets_StockLotId",
                table: "Sheets",
                column: "StockLotId");

            migrationBuilder.CreateIndex(
                name: "IX_Remnants_FromSheetId",
                table: "Remnants",
                column: "FromSheetId");

            migrationBuilder.CreateIndex(
                name: "IX_Remnants_MaterialId_TakenBySheetId",
                table: "Remnants",
                columns: new[] { "MaterialId", "TakenBySheetId" });

            migrationBuilder.CreateIndex(
                name: "IX_SheetLayouts_MaterialId",
                table: "SheetLayouts",
                column: "MaterialId");

            migrationBuilder.CreateIndex(
                name: "IX_StockLots_StockSizeId",
                table: "StockLots",
                column: "StockSizeId");

            migrationBuilder.AddForeignKey(
                name: "FK_Sheets_SheetLayouts_LayoutId",
                table: "Sheets",
                column: "LayoutId",
                principalTable: "SheetLayouts",
                principalColumn: "Id",
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.AddForeignKey(
                name: "FK_Sheets_StockLots_StockLotId",
                table: "Sheets",
                column: "StockLotId",
                principalTable: "StockLots",
                principalColumn: "Id",
                onDelete: ReferentialAction.Restrict);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "FK_Sheets_SheetLayouts_LayoutId",
                table: "Sheets");

            migrationBuilder.DropForeignKey(
                name: "FK_Sheets_StockLots_StockLotId",
                table: "Sheets");

            migrationBuilder.DropTable(
                name: "Remnants");

            migrationBuilder.DropTable(
                name: "SheetLayouts");

            migrationBuilder.DropTable(
                name: "StockLots");

            migrationBuilder.DropIndex(
                name: "IX_Sheets_LayoutId",
                table: "Sheets");

            migrationBuilder.DropIndex(
                name: "IX_Sheets_StockLotId",
                table: "Sheets");

            migrationBuilder.DropColumn(
                name: "LeastSheets",
                table: "StockSizes");

            migrationBuilder.DropColumn(
                name: "LeastRemnantUm",
                table: "Sites");

            migrationBuilder.DropColumn(
                name: "FromLengthUm",
                table: "Sheets");

            migrationBuilder.DropColumn(
                name: "FromWidthUm",
                table: "Sheets");

            migrationBuilder.DropColumn(
                name: "LayoutId",
                table: "Sheets");

            migrationBuilder.DropColumn(
                name: "Lot",
                table: "Sheets");

            migrationBuilder.DropColumn(
                name: "RemnantMark",
                table: "Sheets");

            migrationBuilder.DropColumn(
                name: "StockLotId",
                table: "Sheets");
        }
    }
}

using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PlateTickets.Migrations.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class SeparationFiles : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<double>(
                name: "Coverage",
                table: "Separations",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "ImageHash",
                table: "Separations",
                type: "TEXT",
                maxLength: 400,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<int>(
                name: "ImageLeftUm",
                table: "Separations",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "ImageLengthUm",
                table: "Separations",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "ImageTopUm",
                table: "Separations",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "ImageWidthUm",
                table: "Separations",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "ArrivedFiles",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    FileName = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Sha256 = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    FileBytes = table.Column<long>(type: "INTEGER", nullable: false),
                    ArrivedUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    State = table.Column<string>(type: "TEXT", nullable: false),
                    Sentence = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    TicketNumber = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Colour = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    WidthUm = table.Column<int>(type: "INTEGER", nullable: false),
                    LengthUm = table.Column<int>(type: "INTEGER", nullable: false),
                    PixelsPerMm = table.Column<double>(type: "REAL", nullable: false),
                    Coverage = table.Column<double>(type: "REAL", nullable: true),
                    Version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ArrivedFiles", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "SeparationPreviews",
                columns: table => new
                {
                    SeparationId = table.Column<int>(type: "INTEGER", nullable: false),
                    Png = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SeparationPreviews", x => x.SeparationId);
                    table.ForeignKey(
                        name: "FK_SeparationPreviews_Separations_SeparationId",
                        column: x => x.SeparationId,
                        principalTable: "Separations",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "ArrivedPreviews",
                columns: table => new
                {
                    ArrivedFileId = table.Column<int>(type: "INTEGER", nullable: false),
                    Png = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ArrivedPreviews", x => x.ArrivedFileId);
                    table.ForeignKey(
                        name: "FK_ArrivedPreviews_ArrivedFiles_ArrivedFileId",
                        column: x => x.ArrivedFileId,
                        principalTable: "ArrivedFiles",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_ArrivedFiles_Sha256_FileName",
                table: "ArrivedFiles",
                columns: new[] { "Sha256", "FileName" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ArrivedFiles_State_ArrivedUtc",
                table: "ArrivedFiles",
                columns: new[] { "State", "ArrivedUtc" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "ArrivedPreviews");

            migrationBuilder.DropTable(
                name: "SeparationPreviews");

            migrationBuilder.DropTable(
                name: "ArrivedFiles");

            migrationBuilder.DropColumn(
                name: "Coverage",
                table: "Separations");

            migrationBuilder.DropColumn(
                name: "ImageHash",
                table: "Separations");

            migrationBuilder.DropColumn(
                name: "ImageLeftUm",
                table: "Separations");

            migrationBuilder.DropColumn(
                name: "ImageLengthUm",
                table: "Separations");

            migrationBuilder.DropColumn(
                name: "ImageTopUm",
                table: "Separations");

            migrationBuilder.DropColumn(
                name: "ImageWidthUm",
                table: "Separations");
        }
    }
}

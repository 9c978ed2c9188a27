using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PlateTickets.Migrations.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class TicketSearch : Migration
    {
        private const string Add = """INSERT INTO "TicketWords" (rowid, "Text", "Days") VALUES (NEW."TicketId", NEW."Text", NEW."Days");""";

        private const string Remove = """INSERT INTO "TicketWords" ("TicketWords", rowid, "Text", "Days") VALUES ('delete', OLD."TicketId", OLD."Text", OLD."Days");""";

        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "TicketTexts",
                columns: table => new
                {
                    TicketId = table.Column<int>(type: "INTEGER", nullable: false),
                    Text = table.Column<string>(type: "TEXT", maxLength: -1, nullable: false),
                    Days = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_TicketTexts", x => x.TicketId);
                    table.ForeignKey(
                        name: "FK_TicketTexts_Tickets_TicketId",
                        column: x => x.TicketId,
                        principalTable: "Tickets",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            // The index keeps no text of its own; it follows the table by triggers, as the documentation of FTS5 describes for external content.
            migrationBuilder.Sql("""
                CREATE VIRTUAL TABLE "TicketWords" USING fts5("Text", "Days", content='TicketTexts', content_rowid='TicketId', tokenize='unicode61 remove_diacritics 2', prefix='1 2 3');
                """);
            migrationBuilder.Sql($"""
                CREATE TRIGGER "TicketTexts_Added" AFTER INSERT ON "TicketTexts" BEGIN {Add} END;
                """);
            migrationBuilder.Sql($"""
                CREATE TRIGGER "TicketTexts_Removed" AFTER DELETE ON "TicketTexts" BEGIN {Remove} END;
                """);
            migrationBuilder.Sql($"""
                CREATE TRIGGER "TicketTexts_Changed" AFTER UPDATE ON "TicketTexts" BEGIN {Remove} {Add} END;
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("""DROP TABLE "TicketWords";""");
            migrationBuilder.DropTable(
                name: "TicketTexts");
        }
    }
}

using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PlateTickets.Migrations.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class AuditChain : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_AuditEntries_Record_Key",
                table: "AuditEntries");

            // The model gives the numbers itself now. SQLite's AUTOINCREMENT stays: it only counts where no number is given, and taking it away
            // would write the whole table anew outside a transaction.
            migrationBuilder.AddColumn<byte[]>(
                name: "Hash",
                table: "AuditEntries",
                type: "BLOB",
                maxLength: 32,
                nullable: false,
                defaultValue: new byte[0]);

            migrationBuilder.CreateTable(
                name: "AuditHeads",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false),
                    Count = table.Column<long>(type: "INTEGER", nullable: false),
                    LastId = table.Column<long>(type: "INTEGER", nullable: false),
                    Hash = table.Column<byte[]>(type: "BLOB", maxLength: 32, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AuditHeads", x => x.Id);
                });

            migrationBuilder.InsertData(
                table: "AuditHeads",
                columns: new[] { "Id", "Count", "Hash", "LastId" },
                values: new object[] { 1, 0L, new byte[] { 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0 }, 0L });

            migrationBuilder.CreateIndex(
                name: "IX_AuditEntries_AtUtc",
                table: "AuditEntries",
                column: "AtUtc");

            migrationBuilder.CreateIndex(
                name: "IX_AuditEntries_By_Id",
                table: "AuditEntries",
                columns: new[] { "By", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_AuditEntries_Key_Id",
                table: "AuditEntries",
                columns: new[] { "Key", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_AuditEntries_Record_Id",
                table: "AuditEntries",
                columns: new[] { "Record", "Id" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "AuditHeads");

            migrationBuilder.DropIndex(
                name: "IX_AuditEntries_AtUtc",
                table: "AuditEntries");

            migrationBuilder.DropIndex(
                name: "IX_AuditEntries_By_Id",
                table: "AuditEntries");

            migrationBuilder.DropIndex(
                name: "IX_AuditEntries_Key_Id",
                table: "AuditEntries");

            migrationBuilder.DropIndex(
                name: "IX_AuditEntries_Record_Id",
                table: "AuditEntries");

            migrationBuilder.DropColumn(
                name: "Hash",
                table: "AuditEntries");

            migrationBuilder.CreateIndex(
                name: "IX_AuditEntries_Record_Key",
                table: "AuditEntries",
                columns: new[] { "Record", "Key" });
        }
    }
}

using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PlateTickets.Migrations.PostgreSql.Migrations
{
    /// <inheritdoc />
    public partial class Sites : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "SiteRoles",
                columns: table => new
                {
                    AccountId = table.Column<int>(type: "integer", nullable: false),
                    Site = table.Column<string>(type: "text", nullable: false),
                    Roles = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SiteRoles", x => new { x.AccountId, x.Site });
                    table.ForeignKey(
                        name: "FK_SiteRoles_Accounts_AccountId",
                        column: x => x.AccountId,
                        principalTable: "Accounts",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "SiteStandings",
                columns: table => new
                {
                    Site = table.Column<string>(type: "text", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Address = table.Column<string>(type: "text", nullable: false),
                    OpenSheets = table.Column<int>(type: "integer", nullable: false),
                    OpenTickets = table.Column<int>(type: "integer", nullable: false),
                    Late = table.Column<int>(type: "integer", nullable: false),
                    AtRisk = table.Column<int>(type: "integer", nullable: false),
                    Down = table.Column<int>(type: "integer", nullable: false),
                    LastFinishUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    PlannedUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    ToldUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SiteStandings", x => x.Site);
                });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "SiteRoles");

            migrationBuilder.DropTable(
                name: "SiteStandings");
        }
    }
}

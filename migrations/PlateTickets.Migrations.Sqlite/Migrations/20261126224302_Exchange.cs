using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PlateTickets.Migrations.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class Exchange : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "ContactMail",
                table: "Orders",
                type: "TEXT",
                maxLength: 400,
                nullable: false,
                defaultValue: "");

            migrationBuilder.AddColumn<string>(
                name: "CustomerReference",
                table: "Orders",
                type: "TEXT",
                maxLength: 400,
                nullable: false,
                defaultValue: "");

            migrationBuilder.CreateTable(
                name: "KnownNames",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    Text = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    MeansId = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_KnownNames", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "ReceivedDocuments",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Door = table.Column<string>(type: "TEXT", nullable: false),
                    Purpose = table.Column<string>(type: "TEXT", nullable: false),
                    State = table.Column<string>(type: "TEXT", nullable: false),
                    Sender = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    FileName = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    JobId = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    JobPartId = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Title = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Sha256 = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    ReceivedUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Sentence = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    OrderId = table.Column<int>(type: "INTEGER", nullable: true),
                    FirstId = table.Column<int>(type: "INTEGER", nullable: true),
                    ReturnUrl = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    Priority = table.Column<int>(type: "INTEGER", nullable: false),
                    StartsHeld = table.Column<bool>(type: "INTEGER", nullable: false),
                    FilesOpen = table.Column<int>(type: "INTEGER", nullable: false),
                    Version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ReceivedDocuments", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ReceivedDocuments_Orders_OrderId",
                        column: x => x.OrderId,
                        principalTable: "Orders",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_ReceivedDocuments_ReceivedDocuments_FirstId",
                        column: x => x.FirstId,
                        principalTable: "ReceivedDocuments",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "SignalChannels",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Sender = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    MessageType = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Url = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    QueryId = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Reliable = table.Column<bool>(type: "INTEGER", nullable: false),
                    JobId = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    MadeUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    EndedUtc = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SignalChannels", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "StatusLinks",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    OrderId = table.Column<int>(type: "INTEGER", nullable: false),
                    Hash = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Token = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    MadeUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    MadeBy = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    EndedUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    LastReadUtc = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_StatusLinks", x => x.Id);
                    table.ForeignKey(
                        name: "FK_StatusLinks_Orders_OrderId",
                        column: x => x.OrderId,
                        principalTable: "Orders",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "TicketEvents",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    TicketId = table.Column<int>(type: "INTEGER", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    AtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    By = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    SheetId = table.Column<int>(type: "INTEGER", nullable: true),
                    Station = table.Column<string>(type: "TEXT", nullable: true),
                    ForUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Why = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Told = table.Column<bool>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_TicketEvents", x => x.Id);
                    table.ForeignKey(
                        name: "FK_TicketEvents_Tickets_TicketId",
                        column: x => x.TicketId,
                        principalTable: "Tickets",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Webhooks",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Name = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Url = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    Secret = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    Kinds = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    MadeUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    MadeBy = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    PausedBecause = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    RemovedUtc = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Webhooks", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "DocumentFiles",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    DocumentId = table.Column<int>(type: "INTEGER", nullable: false),
                    Url = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    FileName = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Sha256 = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    Bytes = table.Column<long>(type: "INTEGER", nullable: false),
                    Colour = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_DocumentFiles", x => x.Id);
                    table.ForeignKey(
                        name: "FK_DocumentFiles_ReceivedDocuments_DocumentId",
                        column: x => x.DocumentId,
                        principalTable: "ReceivedDocuments",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "DocumentTexts",
                columns: table => new
                {
                    DocumentId = table.Column<int>(type: "INTEGER", nullable: false),
                    Xjdf = table.Column<byte[]>(type: "BLOB", nullable: false),
                    Xjmf = table.Column<byte[]>(type: "BLOB", nullable: true),
                    Part = table.Column<byte[]>(type: "BLOB", nullable: true),
                    Answers = table.Column<string>(type: "TEXT", maxLength: 8000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_DocumentTexts", x => x.DocumentId);
                    table.ForeignKey(
                        name: "FK_DocumentTexts_ReceivedDocuments_DocumentId",
                        column: x => x.DocumentId,
                        principalTable: "ReceivedDocuments",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Deliveries",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    EventId = table.Column<long>(type: "INTEGER", nullable: false),
                    ReceiverId = table.Column<int>(type: "INTEGER", nullable: false),
                    To = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    State = table.Column<string>(type: "TEXT", nullable: false),
                    Attempts = table.Column<int>(type: "INTEGER", nullable: false),
                    NextUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    MadeUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    SentUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Answer = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Deliveries", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Deliveries_TicketEvents_EventId",
                        column: x => x.EventId,
                        principalTable: "TicketEvents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Deliveries_EventId_Kind_ReceiverId",
                table: "Deliveries",
                columns: new[] { "EventId", "Kind", "ReceiverId" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Deliveries_State_NextUtc",
                table: "Deliveries",
                columns: new[] { "State", "NextUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_DocumentFiles_DocumentId",
                table: "DocumentFiles",
                column: "DocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_KnownNames_Kind_Text",
                table: "KnownNames",
                columns: new[] { "Kind", "Text" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ReceivedDocuments_FirstId",
                table: "ReceivedDocuments",
                column: "FirstId");

            migrationBuilder.CreateIndex(
                name: "IX_ReceivedDocuments_JobId_Sender",
                table: "ReceivedDocuments",
                columns: new[] { "JobId", "Sender" });

            migrationBuilder.CreateIndex(
                name: "IX_ReceivedDocuments_OrderId",
                table: "ReceivedDocuments",
                column: "OrderId");

            migrationBuilder.CreateIndex(
                name: "IX_ReceivedDocuments_State_ReceivedUtc",
                table: "ReceivedDocuments",
                columns: new[] { "State", "ReceivedUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_StatusLinks_Hash",
                table: "StatusLinks",
                column: "Hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_StatusLinks_OrderId",
                table: "StatusLinks",
                column: "OrderId");

            migrationBuilder.CreateIndex(
                name: "IX_TicketEvents_TicketId_Id",
                table: "TicketEvents",
                columns: new[] { "TicketId", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_TicketEvents_Told",
                table: "TicketEvents",
                column: "Told",
                filter: "NOT \"Told\"");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Deliveries");

            migrationBuilder.DropTable(
                name: "DocumentFiles");

            migrationBuilder.DropTable(
                name: "DocumentTexts");

            migrationBuilder.DropTable(
                name: "KnownNames");

            migrationBuilder.DropTable(
                name: "SignalChannels");

            migrationBuilder.DropTable(
                name: "StatusLinks");

            migrationBuilder.DropTable(
                name: "Webhooks");

            migrationBuilder.DropTable(
                name: "TicketEvents");

            migrationBuilder.DropTable(
                name: "ReceivedDocuments");

            migrationBuilder.DropColumn(
                name: "ContactMail",
                table: "Orders");

            migrationBuilder.DropColumn(
                name: "CustomerReference",
                table: "Orders");
        }
    }
}

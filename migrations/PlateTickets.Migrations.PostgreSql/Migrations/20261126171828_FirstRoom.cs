using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace PlateTickets.Migrations.PostgreSql.Migrations
{
    /// <inheritdoc />
    public partial class FirstRoom : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "Accounts",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Roles = table.Column<int>(type: "integer", nullable: false),
                    IsActive = table.Column<bool>(type: "boolean", nullable: false),
                    MadeUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    BadgeHash = table.Column<string>(type: "text", nullable: true),
                    PinHash = table.Column<string>(type: "text", nullable: true),
                    PasswordHash = table.Column<string>(type: "text", nullable: true),
                    SecurityStamp = table.Column<string>(type: "text", nullable: true),
                    ConcurrencyStamp = table.Column<string>(type: "text", nullable: true),
                    NormalizedUserName = table.Column<string>(type: "text", nullable: true),
                    NormalizedEmail = table.Column<string>(type: "text", nullable: true),
                    AccessFailedCount = table.Column<int>(type: "integer", nullable: false),
                    LastSignInUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    UserName = table.Column<string>(type: "text", nullable: true),
                    Email = table.Column<string>(type: "text", nullable: true),
                    EmailConfirmed = table.Column<bool>(type: "boolean", nullable: false),
                    PhoneNumber = table.Column<string>(type: "text", nullable: true),
                    PhoneNumberConfirmed = table.Column<bool>(type: "boolean", nullable: false),
                    TwoFactorEnabled = table.Column<bool>(type: "boolean", nullable: false),
                    LockoutEnd = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    LockoutEnabled = table.Column<bool>(type: "boolean", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Accounts", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "ApiKeys",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Roles = table.Column<int>(type: "integer", nullable: false),
                    Start = table.Column<string>(type: "text", nullable: false),
                    Hash = table.Column<string>(type: "text", nullable: false),
                    MadeUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    MadeBy = table.Column<string>(type: "text", nullable: false),
                    ExpiresUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    LastUsedUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    RevokedUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ApiKeys", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "ArrivedFiles",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    FileName = table.Column<string>(type: "text", nullable: false),
                    Sha256 = table.Column<string>(type: "text", nullable: false),
                    FileBytes = table.Column<long>(type: "bigint", nullable: false),
                    ArrivedUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    State = table.Column<string>(type: "text", nullable: false),
                    Sentence = table.Column<string>(type: "text", nullable: false),
                    TicketNumber = table.Column<string>(type: "text", nullable: false),
                    Colour = table.Column<string>(type: "text", nullable: false),
                    WidthUm = table.Column<int>(type: "integer", nullable: false),
                    LengthUm = table.Column<int>(type: "integer", nullable: false),
                    PixelsPerMm = table.Column<double>(type: "double precision", nullable: false),
                    Coverage = table.Column<double>(type: "double precision", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ArrivedFiles", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "AuditEntries",
                columns: table => new
                {
                    Id = table.Column<long>(type: "bigint", nullable: false),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    By = table.Column<string>(type: "text", nullable: false),
                    Record = table.Column<string>(type: "text", nullable: false),
                    Key = table.Column<string>(type: "text", nullable: false),
                    Field = table.Column<string>(type: "text", nullable: false),
                    From = table.Column<string>(type: "text", nullable: true),
                    To = table.Column<string>(type: "text", nullable: true),
                    Hash = table.Column<byte[]>(type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AuditEntries", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "AuditHeads",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false),
                    Count = table.Column<long>(type: "bigint", nullable: false),
                    LastId = table.Column<long>(type: "bigint", nullable: false),
                    Hash = table.Column<byte[]>(type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AuditHeads", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Customers",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Customers", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "DutyChanges",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    FromUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ToUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    People = table.Column<int>(type: "integer", nullable: false),
                    Reason = table.Column<string>(type: "text", nullable: false),
                    MadeBy = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_DutyChanges", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Equipment",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Slug = table.Column<string>(type: "text", nullable: false),
                    Kind = table.Column<string>(type: "text", nullable: false),
                    Slots = table.Column<int>(type: "integer", nullable: false),
                    Serves = table.Column<int[]>(type: "integer[]", nullable: false),
                    Process = table.Column<string>(type: "text", nullable: true),
                    ChangeoverSeconds = table.Column<int>(type: "integer", nullable: false),
                    DrumRpm = table.Column<double>(type: "double precision", nullable: true),
                    LaserChannels = table.Column<int>(type: "integer", nullable: true),
                    LineLengthMm = table.Column<double>(type: "double precision", nullable: true),
                    LineGapMm = table.Column<double>(type: "double precision", nullable: true),
                    ReadingValidHours = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Equipment", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Handovers",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    ShiftName = table.Column<string>(type: "text", nullable: false),
                    Day = table.Column<DateOnly>(type: "date", nullable: false),
                    StartUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    EndUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    State = table.Column<string>(type: "text", nullable: false),
                    Notes = table.Column<string>(type: "text", nullable: false),
                    NotesBy = table.Column<string>(type: "text", nullable: false),
                    NotesUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Facts = table.Column<string>(type: "text", nullable: true),
                    ClosedBy = table.Column<string>(type: "text", nullable: false),
                    ClosedUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    ConfirmedBy = table.Column<string>(type: "text", nullable: false),
                    ConfirmedUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Remark = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Handovers", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "IdempotentCalls",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Caller = table.Column<string>(type: "text", nullable: false),
                    Key = table.Column<string>(type: "text", nullable: false),
                    Request = table.Column<string>(type: "text", nullable: false),
                    Number = table.Column<string>(type: "text", nullable: false),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_IdempotentCalls", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Materials",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(type: "text", nullable: false),
                    ThicknessUm = table.Column<int>(type: "integer", nullable: false),
                    BaseUm = table.Column<int>(type: "integer", nullable: false),
                    Process = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Materials", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "NumberSequences",
                columns: table => new
                {
                    Kind = table.Column<string>(type: "text", nullable: false),
                    Next = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_NumberSequences", x => x.Kind);
                });

            migrationBuilder.CreateTable(
                name: "ProtectionKeys",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Xml = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ProtectionKeys", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "SheetLayouts",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    MaterialId = table.Column<int>(type: "integer", nullable: false),
                    ReleasedUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ReleasedBy = table.Column<string>(type: "text", nullable: false),
                    UndoneUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    UndoneBy = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SheetLayouts", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "ShiftGoals",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    ShiftName = table.Column<string>(type: "text", nullable: false),
                    ShiftStartUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Station = table.Column<string>(type: "text", nullable: false),
                    Sheets = table.Column<int>(type: "integer", nullable: false),
                    TakenUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ShiftGoals", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Sites",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(type: "text", nullable: false),
                    TimeZoneId = table.Column<string>(type: "text", nullable: false),
                    Units = table.Column<string>(type: "text", nullable: false),
                    IsDemo = table.Column<bool>(type: "boolean", nullable: false),
                    KnifeGapUm = table.Column<int>(type: "integer", nullable: false),
                    ClampMarginUm = table.Column<int>(type: "integer", nullable: false),
                    SideMarginUm = table.Column<int>(type: "integer", nullable: false),
                    LeastRemnantUm = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Sites", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Tablets",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Hash = table.Column<string>(type: "text", nullable: false),
                    RegisteredUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    RegisteredBy = table.Column<string>(type: "text", nullable: false),
                    RemovedUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Tablets", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "AccountClaims",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    UserId = table.Column<int>(type: "integer", nullable: false),
                    ClaimType = table.Column<string>(type: "text", nullable: true),
                    ClaimValue = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AccountClaims", x => x.Id);
                    table.ForeignKey(
                        name: "FK_AccountClaims_Accounts_UserId",
                        column: x => x.UserId,
                        principalTable: "Accounts",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AccountLogins",
                columns: table => new
                {
                    LoginProvider = table.Column<string>(type: "text", nullable: false),
                    ProviderKey = table.Column<string>(type: "text", nullable: false),
                    ProviderDisplayName = table.Column<string>(type: "text", nullable: true),
                    UserId = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AccountLogins", x => new { x.LoginProvider, x.ProviderKey });
                    table.ForeignKey(
                        name: "FK_AccountLogins_Accounts_UserId",
                        column: x => x.UserId,
                        principalTable: "Accounts",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AccountPasskeys",
                columns: table => new
                {
                    CredentialId = table.Column<byte[]>(type: "bytea", nullable: false),
                    UserId = table.Column<int>(type: "integer", nullable: false),
                    Data = table.Column<string>(type: "jsonb", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AccountPasskeys", x => x.CredentialId);
                    table.ForeignKey(
                        name: "FK_AccountPasskeys_Accounts_UserId",
                        column: x => x.UserId,
                        principalTable: "Accounts",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AccountTokens",
                columns: table => new
                {
                    UserId = table.Column<int>(type: "integer", nullable: false),
                    LoginProvider = table.Column<string>(type: "text", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Value = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AccountTokens", x => new { x.UserId, x.LoginProvider, x.Name });
                    table.ForeignKey(
                        name: "FK_AccountTokens_Accounts_UserId",
                        column: x => x.UserId,
                        principalTable: "Accounts",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "CalendarFeeds",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    AccountId = table.Column<int>(type: "integer", nullable: false),
                    Shows = table.Column<int>(type: "integer", nullable: false),
                    Hash = table.Column<string>(type: "text", nullable: false),
                    MadeUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    LastReadUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    RemovedUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_CalendarFeeds", x => x.Id);
                    table.ForeignKey(
                        name: "FK_CalendarFeeds_Accounts_AccountId",
                        column: x => x.AccountId,
                        principalTable: "Accounts",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "ArrivedPreviews",
                columns: table => new
                {
                    ArrivedFileId = table.Column<int>(type: "integer", nullable: false),
                    Png = table.Column<byte[]>(type: "bytea", nullable: false)
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

            migrationBuilder.CreateTable(
                name: "Downtimes",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    EquipmentId = table.Column<int>(type: "integer", nullable: false),
                    FromUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ToUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Reason = table.Column<string>(type: "text", nullable: false),
                    MadeBy = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Downtimes", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Downtimes_Equipment_EquipmentId",
                        column: x => x.EquipmentId,
                        principalTable: "Equipment",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "LampReadings",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    EquipmentId = table.Column<int>(type: "integer", nullable: false),
                    Bank = table.Column<string>(type: "text", nullable: false),
                    IrradianceMwPerCm2 = table.Column<double>(type: "double precision", nullable: false),
                    ReadUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ReadBy = table.Column<string>(type: "text", nullable: false)
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
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(type: "text", nullable: false),
                    UsualMaterialId = table.Column<int>(type: "integer", nullable: false)
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
                name: "Remnants",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    MaterialId = table.Column<int>(type: "integer", nullable: false),
                    WidthUm = table.Column<int>(type: "integer", nullable: false),
                    LengthUm = table.Column<int>(type: "integer", nullable: false),
                    Lot = table.Column<string>(type: "text", nullable: false),
                    ExpiresOn = table.Column<DateOnly>(type: "date", nullable: true),
                    MadeUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    FromSheetId = table.Column<int>(type: "integer", nullable: false),
                    TakenBySheetId = table.Column<int>(type: "integer", nullable: true),
                    GoneBecause = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
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
                name: "StepTests",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    MaterialId = table.Column<int>(type: "integer", nullable: false),
                    EquipmentId = table.Column<int>(type: "integer", nullable: false),
                    Lot = table.Column<string>(type: "text", nullable: false),
                    IrradianceMwPerCm2 = table.Column<double>(type: "double precision", nullable: false),
                    MadeUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    MadeBy = table.Column<string>(type: "text", nullable: false),
                    Steps = table.Column<string>(type: "jsonb", nullable: true)
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
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    MaterialId = table.Column<int>(type: "integer", nullable: false),
                    WidthUm = table.Column<int>(type: "integer", nullable: false),
                    LengthUm = table.Column<int>(type: "integer", nullable: false),
                    LeastSheets = table.Column<int>(type: "integer", nullable: false)
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
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    SiteId = table.Column<int>(type: "integer", nullable: false),
                    Day = table.Column<DateOnly>(type: "date", nullable: false),
                    Reason = table.Column<string>(type: "text", nullable: false)
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
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    SiteId = table.Column<int>(type: "integer", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Days = table.Column<int[]>(type: "integer[]", nullable: false),
                    Start = table.Column<TimeOnly>(type: "time without time zone", nullable: false),
                    End = table.Column<TimeOnly>(type: "time without time zone", nullable: false),
                    Operators = table.Column<int>(type: "integer", nullable: true),
                    Breaks = table.Column<string>(type: "jsonb", nullable: true)
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
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    PressId = table.Column<int>(type: "integer", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    RepeatUm = table.Column<int>(type: "integer", nullable: false)
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
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Number = table.Column<string>(type: "text", nullable: false),
                    CustomerId = table.Column<int>(type: "integer", nullable: false),
                    Title = table.Column<string>(type: "text", nullable: false),
                    PressId = table.Column<int>(type: "integer", nullable: false),
                    RepeatUm = table.Column<int>(type: "integer", nullable: false),
                    MaterialId = table.Column<int>(type: "integer", nullable: false),
                    DueUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Copies = table.Column<int>(type: "integer", nullable: false),
                    EnteredUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    EnteredBy = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
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
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    MaterialId = table.Column<int>(type: "integer", nullable: false),
                    Number = table.Column<int>(type: "integer", nullable: false),
                    State = table.Column<string>(type: "text", nullable: false),
                    Settings = table.Column<string>(type: "text", nullable: false),
                    ReleasedUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ReleasedBy = table.Column<string>(type: "text", nullable: false),
                    StepTestId = table.Column<int>(type: "integer", nullable: true),
                    Doubt = table.Column<string>(type: "text", nullable: false),
                    Note = table.Column<string>(type: "text", nullable: false)
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
                name: "StockLots",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    StockSizeId = table.Column<int>(type: "integer", nullable: false),
                    Lot = table.Column<string>(type: "text", nullable: false),
                    Sheets = table.Column<int>(type: "integer", nullable: false),
                    ReceivedUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ExpiresOn = table.Column<DateOnly>(type: "date", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
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

            migrationBuilder.CreateTable(
                name: "Tickets",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false),
                    State = table.Column<string>(type: "text", nullable: false),
                    Weight = table.Column<double>(type: "double precision", nullable: false),
                    DoneUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    CancelledBecause = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
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
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Number = table.Column<string>(type: "text", nullable: false),
                    MaterialId = table.Column<int>(type: "integer", nullable: false),
                    RecipeRevisionId = table.Column<int>(type: "integer", nullable: false),
                    WidthUm = table.Column<int>(type: "integer", nullable: false),
                    LengthUm = table.Column<int>(type: "integer", nullable: false),
                    Lot = table.Column<string>(type: "text", nullable: false),
                    StockLotId = table.Column<int>(type: "integer", nullable: true),
                    RemnantMark = table.Column<string>(type: "text", nullable: false),
                    FromWidthUm = table.Column<int>(type: "integer", nullable: false),
                    FromLengthUm = table.Column<int>(type: "integer", nullable: false),
                    LayoutId = table.Column<int>(type: "integer", nullable: true),
                    AxialExtentUm = table.Column<int>(type: "integer", nullable: false),
                    PlateCount = table.Column<int>(type: "integer", nullable: false),
                    State = table.Column<string>(type: "text", nullable: false),
                    CurrentStation = table.Column<string>(type: "text", nullable: true),
                    HoldReason = table.Column<string>(type: "text", nullable: false),
                    MadeUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    DoneUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Prints = table.Column<int>(type: "integer", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
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
                    table.ForeignKey(
                        name: "FK_Sheets_SheetLayouts_LayoutId",
                        column: x => x.LayoutId,
                        principalTable: "SheetLayouts",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Sheets_StockLots_StockLotId",
                        column: x => x.StockLotId,
                        principalTable: "StockLots",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Separations",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    TicketId = table.Column<int>(type: "integer", nullable: false),
                    Colour = table.Column<string>(type: "text", nullable: false),
                    ColourFrom = table.Column<string>(type: "text", nullable: false),
                    FileName = table.Column<string>(type: "text", nullable: false),
                    Sha256 = table.Column<string>(type: "text", nullable: false),
                    FileBytes = table.Column<long>(type: "bigint", nullable: false),
                    WidthPixels = table.Column<int>(type: "integer", nullable: false),
                    HeightPixels = table.Column<int>(type: "integer", nullable: false),
                    XPixelsPerMm = table.Column<double>(type: "double precision", nullable: false),
                    YPixelsPerMm = table.Column<double>(type: "double precision", nullable: false),
                    WidthUm = table.Column<int>(type: "integer", nullable: false),
                    LengthUm = table.Column<int>(type: "integer", nullable: false),
                    Coverage = table.Column<double>(type: "double precision", nullable: true),
                    ImageLeftUm = table.Column<int>(type: "integer", nullable: true),
                    ImageTopUm = table.Column<int>(type: "integer", nullable: true),
                    ImageWidthUm = table.Column<int>(type: "integer", nullable: true),
                    ImageLengthUm = table.Column<int>(type: "integer", nullable: true),
                    ImageHash = table.Column<string>(type: "text", nullable: false),
                    LengthVerdict = table.Column<string>(type: "text", nullable: false),
                    AcceptedBecause = table.Column<string>(type: "text", nullable: false)
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
                name: "TicketTexts",
                columns: table => new
                {
                    TicketId = table.Column<int>(type: "integer", nullable: false),
                    Text = table.Column<string>(type: "text", nullable: false),
                    Days = table.Column<string>(type: "text", nullable: false)
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

            migrationBuilder.CreateTable(
                name: "Scans",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Code = table.Column<string>(type: "text", nullable: false),
                    SheetId = table.Column<int>(type: "integer", nullable: true),
                    EquipmentId = table.Column<int>(type: "integer", nullable: false),
                    Station = table.Column<string>(type: "text", nullable: true),
                    Action = table.Column<string>(type: "text", nullable: false),
                    Confirmed = table.Column<bool>(type: "boolean", nullable: false),
                    Of = table.Column<string>(type: "text", nullable: false),
                    Ticked = table.Column<int>(type: "integer", nullable: false),
                    Offline = table.Column<bool>(type: "boolean", nullable: false),
                    ClockBehindSeconds = table.Column<int>(type: "integer", nullable: false),
                    By = table.Column<string>(type: "text", nullable: false),
                    ReadUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ReceivedUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Outcome = table.Column<string>(type: "text", nullable: false),
                    Sentence = table.Column<string>(type: "text", nullable: false)
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
                name: "StageDecisions",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    SheetId = table.Column<int>(type: "integer", nullable: false),
                    Station = table.Column<string>(type: "text", nullable: false),
                    Kind = table.Column<string>(type: "text", nullable: false),
                    Reason = table.Column<string>(type: "text", nullable: false),
                    By = table.Column<string>(type: "text", nullable: false),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    LostSeconds = table.Column<int>(type: "integer", nullable: false)
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
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    SheetId = table.Column<int>(type: "integer", nullable: false),
                    Station = table.Column<string>(type: "text", nullable: false),
                    EquipmentId = table.Column<int>(type: "integer", nullable: true),
                    Kind = table.Column<string>(type: "text", nullable: false),
                    Value = table.Column<int>(type: "integer", nullable: true),
                    From = table.Column<int>(type: "integer", nullable: true),
                    To = table.Column<int>(type: "integer", nullable: true),
                    Text = table.Column<string>(type: "text", nullable: false),
                    State = table.Column<string>(type: "text", nullable: false),
                    Sentence = table.Column<string>(type: "text", nullable: false),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    By = table.Column<string>(type: "text", nullable: false),
                    Reason = table.Column<string>(type: "text", nullable: false),
                    DecidedBy = table.Column<string>(type: "text", nullable: false),
                    DecidedUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
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

            migrationBuilder.CreateTable(
                name: "Stages",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    SheetId = table.Column<int>(type: "integer", nullable: false),
                    Station = table.Column<string>(type: "text", nullable: false),
                    State = table.Column<string>(type: "text", nullable: false),
                    EquipmentId = table.Column<int>(type: "integer", nullable: true),
                    LoadSeconds = table.Column<int>(type: "integer", nullable: false),
                    RunSeconds = table.Column<int>(type: "integer", nullable: false),
                    UnloadSeconds = table.Column<int>(type: "integer", nullable: false),
                    RunIsAttended = table.Column<bool>(type: "boolean", nullable: false),
                    OccupiesSeconds = table.Column<int>(type: "integer", nullable: false),
                    RestAfterSeconds = table.Column<int>(type: "integer", nullable: false),
                    Explanation = table.Column<string>(type: "text", nullable: false),
                    Flags = table.Column<string>(type: "text", nullable: false),
                    PlannedStartUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    PlannedFinishUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    DueByUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    StartedUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    StartedBy = table.Column<string>(type: "text", nullable: false),
                    FinishedUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    FinishedBy = table.Column<string>(type: "text", nullable: false),
                    Drawer = table.Column<int>(type: "integer", nullable: true),
                    SkippedBecause = table.Column<string>(type: "text", nullable: false),
                    Repeats = table.Column<int>(type: "integer", nullable: false)
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
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    TicketId = table.Column<int>(type: "integer", nullable: false),
                    SeparationId = table.Column<int>(type: "integer", nullable: false),
                    Copy = table.Column<int>(type: "integer", nullable: false),
                    WidthUm = table.Column<int>(type: "integer", nullable: false),
                    LengthUm = table.Column<int>(type: "integer", nullable: false),
                    OutOfSet = table.Column<bool>(type: "boolean", nullable: false),
                    RemakeOfPlateId = table.Column<int>(type: "integer", nullable: true)
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
                name: "SeparationPreviews",
                columns: table => new
                {
                    SeparationId = table.Column<int>(type: "integer", nullable: false),
                    Png = table.Column<byte[]>(type: "bytea", nullable: false)
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
                name: "Placements",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    SheetId = table.Column<int>(type: "integer", nullable: false),
                    PlateId = table.Column<int>(type: "integer", nullable: false),
                    Mark = table.Column<int>(type: "integer", nullable: false),
                    XUm = table.Column<int>(type: "integer", nullable: false),
                    YUm = table.Column<int>(type: "integer", nullable: false),
                    WidthUm = table.Column<int>(type: "integer", nullable: false),
                    LengthUm = table.Column<int>(type: "integer", nullable: false),
                    Rotated = table.Column<bool>(type: "boolean", nullable: false)
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

            migrationBuilder.CreateTable(
                name: "Remakes",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    TicketId = table.Column<int>(type: "integer", nullable: false),
                    SheetId = table.Column<int>(type: "integer", nullable: false),
                    PlateId = table.Column<int>(type: "integer", nullable: false),
                    NewPlateId = table.Column<int>(type: "integer", nullable: false),
                    Defect = table.Column<string>(type: "text", nullable: false),
                    Reason = table.Column<string>(type: "text", nullable: false),
                    CausedAt = table.Column<string>(type: "text", nullable: true),
                    FoundAt = table.Column<string>(type: "text", nullable: true),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    By = table.Column<string>(type: "text", nullable: false),
                    AreaUm2 = table.Column<long>(type: "bigint", nullable: false),
                    SpentSeconds = table.Column<int>(type: "integer", nullable: false)
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

            migrationBuilder.InsertData(
                table: "AuditHeads",
                columns: new[] { "Id", "Count", "Hash", "LastId" },
                values: new object[] { 1, 0L, new byte[] { 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0 }, 0L });

            migrationBuilder.CreateIndex(
                name: "IX_AccountClaims_UserId",
                table: "AccountClaims",
                column: "UserId");

            migrationBuilder.CreateIndex(
                name: "IX_AccountLogins_UserId",
                table: "AccountLogins",
                column: "UserId");

            migrationBuilder.CreateIndex(
                name: "IX_AccountPasskeys_UserId",
                table: "AccountPasskeys",
                column: "UserId");

            migrationBuilder.CreateIndex(
                name: "EmailIndex",
                table: "Accounts",
                column: "NormalizedEmail");

            migrationBuilder.CreateIndex(
                name: "IX_Accounts_BadgeHash",
                table: "Accounts",
                column: "BadgeHash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "UserNameIndex",
                table: "Accounts",
                column: "NormalizedUserName",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ApiKeys_Hash",
                table: "ApiKeys",
                column: "Hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ArrivedFiles_Sha256_FileName",
                table: "ArrivedFiles",
                columns: new[] { "Sha256", "FileName" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ArrivedFiles_State_ArrivedUtc",
                table: "ArrivedFiles",
                columns: new[] { "State", "ArrivedUtc" });

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

            migrationBuilder.CreateIndex(
                name: "IX_CalendarFeeds_AccountId",
                table: "CalendarFeeds",
                column: "AccountId");

            migrationBuilder.CreateIndex(
                name: "IX_CalendarFeeds_Hash",
                table: "CalendarFeeds",
                column: "Hash",
                unique: true);

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
                name: "IX_Downtimes_EquipmentId",
                table: "Downtimes",
                column: "EquipmentId");

            migrationBuilder.CreateIndex(
                name: "IX_Downtimes_ToUtc",
                table: "Downtimes",
                column: "ToUtc");

            migrationBuilder.CreateIndex(
                name: "IX_DutyChanges_ToUtc",
                table: "DutyChanges",
                column: "ToUtc");

            migrationBuilder.CreateIndex(
                name: "IX_Equipment_Slug",
                table: "Equipment",
                column: "Slug",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Handovers_StartUtc_ShiftName",
                table: "Handovers",
                columns: new[] { "StartUtc", "ShiftName" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_IdempotentCalls_AtUtc",
                table: "IdempotentCalls",
                column: "AtUtc");

            migrationBuilder.CreateIndex(
                name: "IX_IdempotentCalls_Caller_Key",
                table: "IdempotentCalls",
                columns: new[] { "Caller", "Key" },
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
                name: "IX_Remnants_FromSheetId",
                table: "Remnants",
                column: "FromSheetId");

            migrationBuilder.CreateIndex(
                name: "IX_Remnants_MaterialId_TakenBySheetId",
                table: "Remnants",
                columns: new[] { "MaterialId", "TakenBySheetId" });

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
                name: "IX_SheetLayouts_MaterialId",
                table: "SheetLayouts",
                column: "MaterialId");

            migrationBuilder.CreateIndex(
                name: "IX_Sheets_DoneUtc",
                table: "Sheets",
                column: "DoneUtc");

            migrationBuilder.CreateIndex(
                name: "IX_Sheets_LayoutId",
                table: "Sheets",
                column: "LayoutId");

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
                name: "IX_Sheets_StockLotId",
                table: "Sheets",
                column: "StockLotId");

            migrationBuilder.CreateIndex(
                name: "IX_ShiftEntry_SiteId",
                table: "ShiftEntry",
                column: "SiteId");

            migrationBuilder.CreateIndex(
                name: "IX_ShiftGoals_ShiftStartUtc_ShiftName_Station",
                table: "ShiftGoals",
                columns: new[] { "ShiftStartUtc", "ShiftName", "Station" },
                unique: true);

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

            migrationBuilder.CreateIndex(
                name: "IX_Stages_EquipmentId_State",
                table: "Stages",
                columns: new[] { "EquipmentId", "State" });

            migrationBuilder.CreateIndex(
                name: "IX_Stages_FinishedUtc",
                table: "Stages",
                column: "FinishedUtc");

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
                name: "IX_StockLots_StockSizeId",
                table: "StockLots",
                column: "StockSizeId");

            migrationBuilder.CreateIndex(
                name: "IX_StockSizes_MaterialId",
                table: "StockSizes",
                column: "MaterialId");

            migrationBuilder.CreateIndex(
                name: "IX_Tablets_Hash",
                table: "Tablets",
                column: "Hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Tickets_DoneUtc",
                table: "Tickets",
                column: "DoneUtc");

            migrationBuilder.CreateIndex(
                name: "IX_Tickets_State",
                table: "Tickets",
                column: "State");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "AccountClaims");

            migrationBuilder.DropTable(
                name: "AccountLogins");

            migrationBuilder.DropTable(
                name: "AccountPasskeys");

            migrationBuilder.DropTable(
                name: "AccountTokens");

            migrationBuilder.DropTable(
                name: "ApiKeys");

            migrationBuilder.DropTable(
                name: "ArrivedPreviews");

            migrationBuilder.DropTable(
                name: "AuditEntries");

            migrationBuilder.DropTable(
                name: "AuditHeads");

            migrationBuilder.DropTable(
                name: "CalendarFeeds");

            migrationBuilder.DropTable(
                name: "ClosedDay");

            migrationBuilder.DropTable(
                name: "Cylinder");

            migrationBuilder.DropTable(
                name: "Downtimes");

            migrationBuilder.DropTable(
                name: "DutyChanges");

            migrationBuilder.DropTable(
                name: "Handovers");

            migrationBuilder.DropTable(
                name: "IdempotentCalls");

            migrationBuilder.DropTable(
                name: "LampReadings");

            migrationBuilder.DropTable(
                name: "NumberSequences");

            migrationBuilder.DropTable(
                name: "Placements");

            migrationBuilder.DropTable(
                name: "ProtectionKeys");

            migrationBuilder.DropTable(
                name: "Remakes");

            migrationBuilder.DropTable(
                name: "Remnants");

            migrationBuilder.DropTable(
                name: "Scans");

            migrationBuilder.DropTable(
                name: "SeparationPreviews");

            migrationBuilder.DropTable(
                name: "ShiftEntry");

            migrationBuilder.DropTable(
                name: "ShiftGoals");

            migrationBuilder.DropTable(
                name: "StageDecisions");

            migrationBuilder.DropTable(
                name: "StageReadings");

            migrationBuilder.DropTable(
                name: "Stages");

            migrationBuilder.DropTable(
                name: "Tablets");

            migrationBuilder.DropTable(
                name: "TicketTexts");

            migrationBuilder.DropTable(
                name: "ArrivedFiles");

            migrationBuilder.DropTable(
                name: "Accounts");

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
                name: "SheetLayouts");

            migrationBuilder.DropTable(
                name: "StockLots");

            migrationBuilder.DropTable(
                name: "Tickets");

            migrationBuilder.DropTable(
                name: "StepTests");

            migrationBuilder.DropTable(
                name: "StockSizes");

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

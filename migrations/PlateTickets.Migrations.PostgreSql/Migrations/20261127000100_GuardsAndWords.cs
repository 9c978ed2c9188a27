using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using PlateTickets.Tickets;

#nullable disable

namespace PlateTickets.Migrations.PostgreSql.Migrations
{
    /// <summary>The audit trail is append-only, and tickets are found by their words: what the model cannot say.</summary>
    [DbContext(typeof(PlateRoomDb))]
    [Migration("20261127000100_GuardsAndWords")]
    public sealed class GuardsAndWords : Migration
    {
        private const string Changed = "The audit trail is append-only: an entry is never changed.";
        private const string Deleted = "The audit trail is append-only: an entry is never deleted.";

        private static readonly (string Name, string When, string Sentence)[] Guards =
        [
            ("AuditEntries_KeepContent", "BEFORE UPDATE OF \"Id\", \"AtUtc\", \"By\", \"Record\", \"Key\", \"Field\", \"From\", \"To\" ON \"AuditEntries\" FOR EACH ROW", Changed),
            ("AuditEntries_KeepHash", "BEFORE UPDATE OF \"Hash\" ON \"AuditEntries\" FOR EACH ROW WHEN (length(OLD.\"Hash\") > 0)", Changed),
            ("AuditEntries_KeepAll", "BEFORE DELETE ON \"AuditEntries\" FOR EACH ROW", Deleted),
            ("AuditEntries_KeepTable", "BEFORE TRUNCATE ON \"AuditEntries\" FOR EACH STATEMENT", Deleted),
            ("AuditHeads_GoForward", "BEFORE UPDATE ON \"AuditHeads\" FOR EACH ROW WHEN (NEW.\"Id\" <> OLD.\"Id\" OR NEW.\"Count\" < OLD.\"Count\" OR NEW.\"LastId\" < OLD.\"LastId\")", "The head of the audit trail goes forward only."),
            ("AuditHeads_KeepAll", "BEFORE DELETE ON \"AuditHeads\" FOR EACH ROW", "The head of the audit trail is never deleted."),
            ("AuditHeads_KeepTable", "BEFORE TRUNCATE ON \"AuditHeads\" FOR EACH STATEMENT", "The head of the audit trail is never deleted."),
        ];

        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("""
                CREATE FUNCTION "RefuseChange"() RETURNS trigger LANGUAGE plpgsql AS $$
                BEGIN
                    RAISE EXCEPTION '%', TG_ARGV[0] USING ERRCODE = 'restrict_violation';
                END $$;
                """);
            foreach (var (name, when, sentence) in Guards)
            {
                migrationBuilder.Sql($"CREATE TRIGGER \"{name}\" {when} EXECUTE FUNCTION \"RefuseChange\"('{sentence}');");
            }

            // A condition of a trigger may not ask another row.
            migrationBuilder.Sql("""
                CREATE FUNCTION "OnlyAtTheEnd"() RETURNS trigger LANGUAGE plpgsql AS $$
                BEGIN
                    IF NEW."Id" <= (SELECT max("Id") FROM "AuditEntries") THEN
                        RAISE EXCEPTION 'The audit trail is append-only: a new entry comes after all others.' USING ERRCODE = 'restrict_violation';
                    END IF;
                    RETURN NEW;
                END $$;
                """);
            migrationBuilder.Sql("CREATE TRIGGER \"AuditEntries_AtTheEnd\" BEFORE INSERT ON \"AuditEntries\" FOR EACH ROW EXECUTE FUNCTION \"OnlyAtTheEnd\"();");

            // Weights tell the words of a ticket from its days.
            migrationBuilder.Sql("""
                ALTER TABLE "TicketTexts" ADD COLUMN "Words" tsvector
                GENERATED ALWAYS AS (setweight(to_tsvector('simple', "Text"), 'A') || setweight(to_tsvector('simple', "Days"), 'D')) STORED;
                """);
            migrationBuilder.Sql("CREATE INDEX \"IX_TicketTexts_Words\" ON \"TicketTexts\" USING gin (\"Words\");");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("ALTER TABLE \"TicketTexts\" DROP COLUMN \"Words\";");
            migrationBuilder.Sql("DROP FUNCTION \"OnlyAtTheEnd\"() CASCADE;");
            migrationBuilder.Sql("DROP FUNCTION \"RefuseChange\"() CASCADE;");
        }
    }
}

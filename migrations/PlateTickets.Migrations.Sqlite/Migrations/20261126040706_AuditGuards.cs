using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PlateTickets.Migrations.Sqlite.Migrations
{
    /// <summary>
    /// The audit trail is append-only. An entry gets its hash once (those of an earlier version at the first start); new ones come at the end,
    /// since INSERT OR REPLACE would delete without asking the trigger for deletions. A migration that rebuilds AuditEntries must make these again.
    /// </summary>
    public partial class AuditGuards : Migration
    {
        private static readonly (string Name, string When, string Sentence)[] Guards =
        [
            ("AuditEntries_KeepContent", "BEFORE UPDATE OF \"Id\", \"AtUtc\", \"By\", \"Record\", \"Key\", \"Field\", \"From\", \"To\" ON \"AuditEntries\"", "The audit trail is append-only: an entry is never changed."),
            ("AuditEntries_KeepHash", "BEFORE UPDATE OF \"Hash\" ON \"AuditEntries\" WHEN length(OLD.\"Hash\") > 0", "The audit trail is append-only: an entry is never changed."),
            ("AuditEntries_KeepAll", "BEFORE DELETE ON \"AuditEntries\"", "The audit trail is append-only: an entry is never deleted."),
            ("AuditEntries_AtTheEnd", "BEFORE INSERT ON \"AuditEntries\" WHEN NEW.\"Id\" <= (SELECT max(\"Id\") FROM \"AuditEntries\")", "The audit trail is append-only: a new entry comes after all others."),
            ("AuditHeads_GoForward", "BEFORE UPDATE ON \"AuditHeads\" WHEN NEW.\"Id\" <> OLD.\"Id\" OR NEW.\"Count\" < OLD.\"Count\" OR NEW.\"LastId\" < OLD.\"LastId\"", "The head of the audit trail goes forward only."),
            ("AuditHeads_KeepAll", "BEFORE DELETE ON \"AuditHeads\"", "The head of the audit trail is never deleted."),
        ];

        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            foreach (var (name, when, sentence) in Guards)
            {
                migrationBuilder.Sql($"CREATE TRIGGER \"{name}\" {when} BEGIN SELECT RAISE(ABORT, '{sentence}'); END;");
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            foreach (var (name, _, _) in Guards)
            {
                migrationBuilder.Sql($"DROP TRIGGER \"{name}\";");
            }
        }
    }
}

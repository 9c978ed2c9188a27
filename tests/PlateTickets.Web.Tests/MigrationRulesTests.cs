using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.EntityFrameworkCore.Migrations.Operations;
using PlateTickets.Web.Tests.OldRooms;

namespace PlateTickets.Web.Tests;

/// <summary>
/// Migrations only add, so that the version before goes on working on the new tables: while nodes are brought up to date one after the other, and when somebody goes back
/// with PostgreSQL without restoring.
/// </summary>
public sealed class MigrationRulesTests
{
    /// <summary>Landed before the rule, or looked at by a person: why the version before can live with it.</summary>
    private static readonly Dictionary<string, string> LookedAt = new()
    {
        ["AuditGuards"] = "before the rule: triggers that refuse what no version does",
        ["GuardsAndWords"] = "before the rule: the same triggers, and a column that the server computes",
        ["PlatesOutOfSet"] = "before the rule",
        ["StockAndLayouts"] = "before the rule",
        ["TicketSearch"] = "before the rule: a search table that triggers keep",
        ["UnitsAndCutting"] = "before the rule",
    };

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Migrations_OnlyAdd(bool postgreSql)
    {
        using var db = postgreSql ? OldRoom.OpenPostgreSql("Host=nowhere") : OldRoom.OpenSqlite("nowhere.db");
        var migrations = db.GetService<IMigrationsAssembly>();
        var tables = new HashSet<string>();
        var refused = new List<string>();
        var needless = new List<string>();
        foreach (var (id, type) in migrations.Migrations.OrderBy(m => m.Key, StringComparer.Ordinal))
        {
            var migration = migrations.CreateMigration(type, db.Database.ProviderName!);
            var found = migration.UpOperations.Select(o => Refusal(o, tables)).OfType<string>().Select(r => $"{id} {r}").ToList();
            if (!LookedAt.ContainsKey(id[(id.IndexOf('_', StringComparison.Ordinal) + 1)..]))
            {
                refused.AddRange(found);
            }
            else if (found.Count == 0)
            {
                needless.Add(id);
            }

            tables.UnionWith(migration.UpOperations.OfType<CreateTableOperation>().Select(t => t.Name));
        }

        Assert.Empty(needless);
        Assert.True(refused.Count == 0, $"""
            {string.Join(Environment.NewLine, refused)}
            The version before works on the same database while nodes are upgraded one after the other. Add a new column (nullable or with a default) beside the old one, go on writing both, and take the
            old one away in a later version. If the version before can really live with it, say why in {nameof(LookedAt)}.
            """);
    }

    /// <summary>The rule itself.</summary>
    [Fact]
    public void Rule_LetsAdditionsPass_AndRefusesTheRest()
    {
        var tables = new HashSet<string> { "Orders" };
        MigrationOperation[] good =
        [
            new CreateTableOperation { Name = "New" },
            new AddColumnOperation { Table = "Orders", Name = "Maybe", IsNullable = true, ClrType = typeof(string) },
            new AddColumnOperation { Table = "Orders", Name = "Usual", DefaultValue = "", ClrType = typeof(string) },
            new CreateIndexOperation { Table = "Orders", Name = "IX", Columns = ["Maybe"] },
            new CreateIndexOperation { Table = "New", Name = "IX", Columns = ["Id"], IsUnique = true },
        ];
        Assert.All(good, o => Assert.Null(Refusal(o, tables)));
        MigrationOperation[] bad =
        [
            new DropTableOperation { Name = "Orders" },
            new DropColumnOperation { Table = "Orders", Name = "Title" },
            new RenameColumnOperation { Table = "Orders", Name = "Title", NewName = "Name" },
            new RenameTableOperation { Name = "Orders", NewName = "Jobs" },
            new AlterColumnOperation { Table = "Orders", Name = "Title", ClrType = typeof(string) },
            new AddColumnOperation { Table = "Orders", Name = "Must", ClrType = typeof(string) },
            new CreateIndexOperation { Table = "Orders", Name = "IX", Columns = ["Title"], IsUnique = true },
            new SqlOperation { Sql = "DELETE FROM \"Orders\"" },
        ];
        Assert.All(bad, o => Assert.NotNull(Refusal(o, tables)));
    }

    /// <summary>What is wrong with it for the version before; null when nothing is.</summary>
    /// <param name="operation">One step of a migration.</param>
    /// <param name="tables">The tables that were there before: that version writes into them.</param>
    private static string? Refusal(MigrationOperation operation, HashSet<string> tables) => operation switch
    {
        CreateTableOperation or InsertDataOperation or CreateSequenceOperation => null,
        AddColumnOperation { IsNullable: false, DefaultValue: null, DefaultValueSql: null, ComputedColumnSql: null } column when tables.Contains(column.Table) =>
            $"adds {column.Table}.{column.Name} without a default: the version before writes rows without it.",
        AddColumnOperation => null,
        CreateIndexOperation { IsUnique: true } index when tables.Contains(index.Table) =>
            $"makes {string.Join(", ", index.Columns)} of {index.Table} unique: the version before may write the same twice.",
        CreateIndexOperation or DropIndexOperation => null,
        AddForeignKeyOperation key when tables.Contains(key.Table) => $"makes {string.Join(", ", key.Columns)} of {key.Table} refer to {key.PrincipalTable}: the version before does not heed it.",
        AddForeignKeyOperation => null,
        SqlOperation sql => $"runs SQL of its own, which nobody can judge here: {sql.Sql.ReplaceLineEndings(" ")[..Math.Min(60, sql.Sql.Length)]}",
        _ => $"does {operation.GetType().Name.Replace("Operation", "", StringComparison.Ordinal)}, which takes something away that the version before uses.",
    };
}

using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets;

namespace PlateTickets.Web.Tests.OldRooms;

/// <summary>
/// A room of an earlier version on either database. Its rows were written by that version's own program (commit 1e20740, its demo room on a Wednesday at 08:00) and are
/// kept as the INSERTs with which that version would write them: with the columns that it knew.
/// </summary>
internal static class OldRoom
{
    /// <summary>The last migration that its program had.</summary>
    public const string Migration = "SheetsByTimeMade";

    private const string Guards = "GuardsAndWords";

    public static PlateRoomDb OpenSqlite(string file) => new(new DbContextOptionsBuilder<PlateRoomDb>()
        .UseSqlite($"Data Source={file};Pooling=False", sqlite => sqlite.MigrationsAssembly("PlateTickets.Migrations.Sqlite")).Options);

    public static PlateRoomDb OpenPostgreSql(string connection) => new(new DbContextOptionsBuilder<PlateRoomDb>()
        .UseNpgsql(connection, postgre => postgre.MigrationsAssembly("PlateTickets.Migrations.PostgreSql")).Options);

    /// <summary>Makes the tables as that version had them.</summary>
    public static async Task MakeTablesAsync(PlateRoomDb db)
    {
        var migrator = db.GetService<IMigrator>();
        await migrator.MigrateAsync(Migration);
        if (db.Database.IsNpgsql())
        {
            // Its date is later than that of a migration that this version did not have.
            var all = db.Database.GetMigrations().ToList();
            var guards = all.FindIndex(m => m.EndsWith(Guards, StringComparison.Ordinal));
            await db.Database.ExecuteSqlRawAsync(migrator.GenerateScript(all[guards - 1], all[guards]).Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal));
        }
    }

    /// <summary>Writes its rows as that version's program did.</summary>
    public static async Task WriteRowsAsync(PlateRoomDb db)
    {
        var kind = db.Database.IsNpgsql() ? "postgresql" : "sqlite";
        await db.Database.OpenConnectionAsync();
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = await File.ReadAllTextAsync(Path.Combine(Repository.Root, "tests", "PlateTickets.Web.Tests", "OldRooms", $"sheets-by-time-made.{kind}.sql"));
        if (kind == "sqlite")
        {
            // Rows that refer to each other are whole at the end.
            command.CommandText = $"PRAGMA foreign_keys=ON; BEGIN; PRAGMA defer_foreign_keys=ON; {command.CommandText}; COMMIT";
        }

        await command.ExecuteNonQueryAsync();
        await db.Database.CloseConnectionAsync();
    }

    /// <summary>A room on a PostgreSQL server for tests of something else: its few rows in today's tables are there sooner than the whole demo.</summary>
    public static async Task MakeAsync(string connection)
    {
        await using var db = OpenPostgreSql(connection);
        await db.Database.MigrateAsync();
        await WriteRowsAsync(db);
    }

    /// <summary>The rows of every table that there is, but for the list of migrations.</summary>
    public static async Task<SortedDictionary<string, long>> CountsAsync(PlateRoomDb db)
    {
        await db.Database.OpenConnectionAsync();
        var counts = new SortedDictionary<string, long>(StringComparer.Ordinal);
        foreach (var table in await ReadAsync(db, db.Database.IsNpgsql()
            ? "SELECT table_name FROM information_schema.tables WHERE table_schema = 'public'"
            : "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%' AND name NOT LIKE 'TicketWords%'"))
        {
            if (!table.StartsWith("__", StringComparison.Ordinal))
            {
                counts[table] = long.Parse((await ReadAsync(db, $"SELECT count(*) FROM \"{table}\"")).Single(), System.Globalization.CultureInfo.InvariantCulture);
            }
        }

        await db.Database.CloseConnectionAsync();
        return counts;
    }

    /// <summary>How the tables, indexes and triggers of a SQLite file were made.</summary>
    public static async Task<List<string>> SchemaAsync(string file)
    {
        await using var db = OpenSqlite(file);
        await db.Database.OpenConnectionAsync();
        return await ReadAsync(db, "SELECT sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY type, name");
    }

    private static async Task<List<string>> ReadAsync(PlateRoomDb db, string sql)
    {
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = sql;
        await using var rows = await command.ExecuteReaderAsync();
        var texts = new List<string>();
        while (await rows.ReadAsync())
        {
            texts.Add(Convert.ToString(rows.GetValue(0), System.Globalization.CultureInfo.InvariantCulture)!);
        }

        return texts;
    }
}

using System.Globalization;
using Microsoft.Data.Sqlite;

namespace PlateTickets.Web.Startup.Backups;

/// <summary>The SQLite part of a backup.</summary>
internal static class BackupDatabase
{
    /// <summary>
    /// Copies a database that is being written to, and counts its rows, both in one read transaction: in WAL mode that keeps no writer
    /// waiting, and copy and counts are of the same moment. SQLite's backup interface takes all pages in one step; VACUUM INTO would do too,
    /// but it writes every row anew (slower, and more WAL piles up meanwhile) and cannot share a transaction with the counting.
    /// </summary>
    public static Dictionary<string, long> Copy(string from, string to)
    {
        using var source = Open(from, SqliteOpenMode.ReadOnly);
        // Deferred: the snapshot is taken by the first read, and nothing is locked for writing.
        using var moment = source.BeginTransaction(deferred: true);
        var counts = Counts(source);
        using (var target = Open(to, SqliteOpenMode.ReadWriteCreate))
        {
            source.BackupDatabase(target);
            // A copy that is only read needs no log beside it.
            Run(target, "PRAGMA journal_mode=DELETE");
        }

        DiskFile.Settle(to);
        return counts;
    }

    /// <summary>Rows of every table of the room.</summary>
    public static Dictionary<string, long> Counts(SqliteConnection connection)
    {
        var tables = new List<string>();
        using (var names = Command(connection, "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\' ORDER BY name"))
        using (var rows = names.ExecuteReader())
        {
            while (rows.Read())
            {
                tables.Add(rows.GetString(0));
            }
        }

        return tables.ToDictionary(t => t, t => Convert.ToInt64(Scalar(connection, $"SELECT count(*) FROM \"{t.Replace("\"", "\"\"", StringComparison.Ordinal)}\""), CultureInfo.InvariantCulture));
    }

    /// <summary>What SQLite itself finds wrong, at most ten sentences.</summary>
    public static IReadOnlyList<string> Faults(SqliteConnection connection)
    {
        var faults = new List<string>();
        using (var check = Command(connection, "PRAGMA integrity_check(10)"))
        using (var rows = check.ExecuteReader())
        {
            while (rows.Read())
            {
                if (rows.GetString(0) != "ok")
                {
                    faults.Add($"SQLite finds the database damaged: {rows.GetString(0)}.");
                }
            }
        }

        using (var check = Command(connection, "PRAGMA foreign_key_check"))
        using (var rows = check.ExecuteReader())
        {
            while (rows.Read() && faults.Count < 10)
            {
                faults.Add($"A row of {rows.GetString(0)} refers to a row of {rows.GetString(2)} that is not there.");
            }
        }

        return faults;
    }

    public static string Migration(SqliteConnection connection) =>
        Scalar(connection, "SELECT MigrationId FROM __EFMigrationsHistory ORDER BY MigrationId DESC LIMIT 1") as string ?? "";

    /// <summary>Not from the pool: whoever moves or deletes the file must find it closed.</summary>
    public static SqliteConnection Open(string file, SqliteOpenMode mode)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = file, Mode = mode, Pooling = false }.ToString());
        try
        {
            connection.Open();
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    private static object? Scalar(SqliteConnection connection, string sql)
    {
        using var command = Command(connection, sql);
        return command.ExecuteScalar();
    }

    private static void Run(SqliteConnection connection, string sql)
    {
        using var command = Command(connection, sql);
        command.ExecuteNonQuery();
    }

    private static SqliteCommand Command(SqliteConnection connection, string sql)
    {
        var command = connection.CreateCommand();
        command.CommandText = sql;
        return command;
    }
}

using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Database;

namespace PlateTickets.Tests.Shared;

/// <summary>
/// The database of one test: a SQLite file, or a database of the PostgreSQL server that PLATETICKETS_POSTGRES names by its connection string. Made as a
/// copy of one that was filled before.
/// </summary>
internal sealed class TestDatabase
{
    private static readonly string? Server = Environment.GetEnvironmentVariable("PLATETICKETS_POSTGRES");

    // Rooms that are filled once and copied live as long as the tests do.
    private static readonly Lazy<string> Folder = new(() =>
    {
        var folder = Directory.CreateTempSubdirectory("plate-tests-").FullName;
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Directory.Delete(folder, recursive: true);
        return folder;
    });

    private readonly string _name = $"plate-room-{Guid.NewGuid():N}";

    public static bool IsPostgreSql => !string.IsNullOrEmpty(Server);

    /// <summary>The SQLite file.</summary>
    public string File => Path.Combine(Folder.Value, _name + ".db");

    public string Connection => new NpgsqlConnectionStringBuilder(Server) { Database = _name, MaxPoolSize = 20, ConnectionIdleLifetime = 5, ConnectionPruningInterval = 2 }.ConnectionString;

    public void Use(DbContextOptionsBuilder options)
    {
        if (IsPostgreSql)
        {
            options.UseNpgsql(Connection, postgre => postgre.MigrationsAssembly("PlateTickets.Migrations.PostgreSql")).AddInterceptors(new PostgreSqlText());
        }
        else
        {
            options.UseSqlite($"Data Source={File}", sqlite => sqlite.MigrationsAssembly("PlateTickets.Migrations.Sqlite")).AddInterceptors(new SqliteDurability());
        }
    }

    /// <summary>Another one with the same content. Nobody may be at work in this one.</summary>
    public async Task<TestDatabase> CopyAsync()
    {
        var copy = new TestDatabase();
        if (IsPostgreSql)
        {
            await CommandAsync($"CREATE DATABASE \"{copy._name}\" TEMPLATE \"{_name}\" STRATEGY FILE_COPY");
        }
        else
        {
            System.IO.File.Copy(File, copy.File);
        }

        return copy;
    }

    /// <summary>Leaves nothing open, so that it can be copied.</summary>
    public async Task RestAsync(PlateRoomDb db)
    {
        if (IsPostgreSql)
        {
            await using var connection = new NpgsqlConnection(Connection);
            NpgsqlConnection.ClearPool(connection);
            return;
        }

        // One file without a log beside it.
        await db.Database.ExecuteSqlRawAsync("PRAGMA wal_checkpoint(TRUNCATE)");
        SqliteConnection.ClearAllPools();
    }

    public async Task DropAsync()
    {
        if (IsPostgreSql)
        {
            await using (var connection = new NpgsqlConnection(Connection))
            {
                NpgsqlConnection.ClearPool(connection);
            }

            await CommandAsync($"DROP DATABASE IF EXISTS \"{_name}\" WITH (FORCE)");
            return;
        }

        SqliteConnection.ClearAllPools();
        foreach (var file in Directory.EnumerateFiles(Folder.Value, _name + ".db*"))
        {
            System.IO.File.Delete(file);
        }
    }

    private static async Task CommandAsync(string sql)
    {
        await using var connection = new NpgsqlConnection(Server);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync();
    }
}

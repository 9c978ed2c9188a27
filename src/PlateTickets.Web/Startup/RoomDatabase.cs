using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.Extensions.Options;
using Npgsql;
using PlateTickets.Process;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Sites;

namespace PlateTickets.Web.Startup;

/// <summary>The room's database, whichever it is.</summary>
public sealed class RoomDatabase(IOptions<DatabaseOptions> options, DataFolder folder, SiteKey site)
{
    private const string Migrations = "PlateTickets.Migrations.PostgreSql";

    // Any number that is the same on all nodes.
    private const long StartLock = 0x706C6174_65730002;

    private const int MostPrepared = 200;

    private const int MostSessions = 20;

    /// <summary>What was noticed of the database's disk.</summary>
    public DatabaseWatch Watch { get; } = new();

    public bool IsPostgreSql => options.Value.Provider == DatabaseKind.PostgreSql;

    /// <summary>Where it is, for people: never with a password.</summary>
    public string Place
    {
        get
        {
            if (!IsPostgreSql)
            {
                return folder.Database;
            }

            var server = new NpgsqlConnectionStringBuilder(options.Value.ConnectionString);
            return $"PostgreSQL, database {server.Database} on {server.Host}" + (site.IsAlone ? "" : $", site {site}");
        }
    }

    /// <exception cref="PlateRoomException">It is a server's.</exception>
    public void RefuseServer(string what)
    {
        if (IsPostgreSql)
        {
            throw new PlateRoomException($"{what} is for a SQLite room. This room is in PostgreSQL: its own tools back it up and restore it (docs/backup.md).");
        }
    }

    public void Use(DbContextOptionsBuilder database)
    {
        database.AddInterceptors(Watch);
        if (IsPostgreSql)
        {
            database.UseNpgsql(Prepared(Connection), postgre => postgre.MigrationsAssembly(Migrations)).AddInterceptors(new PostgreSqlText());
            if (!site.IsAlone)
            {
                PeopleSchema.Use(database);
            }
        }
        else
        {
            database.UseSqlite($"Data Source={folder.Database}", sqlite => sqlite.MigrationsAssembly("PlateTickets.Migrations.Sqlite")).AddInterceptors(new SqliteDurability());
        }
    }

    /// <summary>Brings the tables up to date; of a site its own and those of the people of all sites.</summary>
    /// <param name="db">The room.</param>
    /// <param name="before">Told the first migration that is missing before anything is changed; of a room that is up to date it is not called.</param>
    /// <param name="cancel">Cancels.</param>
    public async Task MigrateAsync(PlateRoomDb db, Action<string>? before = null, CancellationToken cancel = default)
    {
        if (site.IsAlone)
        {
            await MigrateTablesAsync(db, before, cancel);
            return;
        }

        await MigrateSchemaAsync(SiteKey.People, cancel);
        await MigrateSchemaAsync(site.Value, cancel);
        await SiteSchema.PointToPeopleAsync(db, site, cancel);
    }

    // Asking first is far quicker than migrating what is up to date: that compares the whole model.
    private static async Task MigrateTablesAsync(PlateRoomDb db, Action<string>? before, CancellationToken cancel)
    {
        if ((await db.Database.GetPendingMigrationsAsync(cancel)).FirstOrDefault() is { } pending)
        {
            before?.Invoke(pending);
            await db.Database.MigrateAsync(cancel);
        }
    }

    // Each schema has all tables and its own list of what was done to it: the same migrations make a room, a site and the people.
    private async Task MigrateSchemaAsync(string schema, CancellationToken cancel)
    {
        var connection = new NpgsqlConnectionStringBuilder(options.Value.ConnectionString) { SearchPath = schema, Pooling = false }.ConnectionString;
        var builder = new DbContextOptionsBuilder<PlateRoomDb>();
        builder.UseNpgsql(connection, postgre => postgre.MigrationsAssembly(Migrations).MigrationsHistoryTable(HistoryRepository.DefaultTableName, schema));
        await using var db = new PlateRoomDb(builder.Options);
        // The name of a schema cannot be a parameter; a key holds nothing but letters, digits and low lines.
        var make = $"CREATE SCHEMA IF NOT EXISTS \"{schema}\"";
        await db.Database.ExecuteSqlRawAsync(make, cancel);
        await MigrateTablesAsync(db, before: null, cancel);
    }

    private string Connection => site.IsAlone ? options.Value.ConnectionString : OfSite(options.Value.ConnectionString);

    // Many sites may be served by one program: together they must not use up the server's sessions. A connection string may say otherwise.
    private string OfSite(string connection)
    {
        var server = new NpgsqlConnectionStringBuilder(connection) { SearchPath = site.Value };
        if (!Says(connection, "MaxPoolSize") && !Says(connection, "MaximumPoolSize"))
        {
            server.MaxPoolSize = MostSessions;
        }

        return server.ConnectionString;
    }

    private static bool Says(string connection, string setting) => connection.Replace(" ", "", StringComparison.Ordinal).Contains(setting, StringComparison.OrdinalIgnoreCase);

    // The same questions come again and again: the server plans each once for a session. A connection string may say otherwise.
    private static string Prepared(string connection)
    {
        var server = new NpgsqlConnectionStringBuilder(connection);
        if (!Says(connection, "MaxAutoPrepare"))
        {
            server.MaxAutoPrepare = MostPrepared;
        }

        return server.ConnectionString;
    }

    /// <summary>Of several nodes that start at once one does this, and the others wait until it is done.</summary>
    public async Task AloneAsync(Func<Task> work, CancellationToken cancel = default)
    {
        if (!IsPostgreSql)
        {
            await work();
            return;
        }

        await EnsureThereAsync(cancel);
        // The lock belongs to the session: it is given back even when the node dies.
        await using var connection = await OpenAloneAsync(cancel);
        // The same for all sites: they make the people's tables together.
        await using var command = new NpgsqlCommand($"SELECT pg_advisory_lock({StartLock})", connection) { CommandTimeout = 0 };
        await command.ExecuteNonQueryAsync(cancel);
        await work();
    }

    /// <summary>A connection of its own, outside the pool: its session ends with it, and with it what the session holds.</summary>
    public async Task<NpgsqlConnection> OpenAloneAsync(CancellationToken cancel = default)
    {
        var server = new NpgsqlConnectionStringBuilder(Connection) { Pooling = false, KeepAlive = 5, Timeout = 5 };
        var connection = new NpgsqlConnection(server.ConnectionString);
        try
        {
            await connection.OpenAsync(cancel);
            return connection;
        }
        catch
        {
            await connection.DisposeAsync();
            throw;
        }
    }

    /// <summary>In bytes; 0 where there is none yet.</summary>
    public async Task<long> SizeAsync(PlateRoomDb db, CancellationToken cancel = default)
    {
        if (!IsPostgreSql)
        {
            return new FileInfo(folder.Database) is { Exists: true } file ? file.Length : 0;
        }

        return await db.Database.SqlQueryRaw<long>("SELECT pg_database_size(current_database()) AS \"Value\"").SingleAsync(cancel);
    }

    /// <summary>The name and version of what keeps it.</summary>
    public async Task<string> VersionAsync(PlateRoomDb db, CancellationToken cancel = default) => IsPostgreSql
        ? $"PostgreSQL {(await db.Database.SqlQueryRaw<string>("SELECT current_setting('server_version') AS \"Value\"").SingleAsync(cancel)).Split(' ')[0]}"
        : $"SQLite {SQLitePCL.raw.sqlite3_libversion().utf8_to_string()}";

    // A new plant has a server and a user, and the program makes the database, if it may.
    private async Task EnsureThereAsync(CancellationToken cancel)
    {
        var server = new NpgsqlConnectionStringBuilder(options.Value.ConnectionString);
        var wanted = server.Database;
        try
        {
            await using var there = new NpgsqlConnection(server.ConnectionString);
            await there.OpenAsync(cancel);
        }
        catch (PostgresException e) when (e.SqlState == PostgresErrorCodes.InvalidCatalogName)
        {
            server.Database = "postgres";
            server.Pooling = false;
            await using var connection = new NpgsqlConnection(server.ConnectionString);
            await connection.OpenAsync(cancel);
            await using var command = new NpgsqlCommand($"CREATE DATABASE \"{wanted!.Replace("\"", "\"\"", StringComparison.Ordinal)}\"", connection);
            try
            {
                await command.ExecuteNonQueryAsync(cancel);
            }
            catch (PostgresException made) when (made.SqlState is PostgresErrorCodes.DuplicateDatabase or PostgresErrorCodes.UniqueViolation)
            {
                // Another node was faster.
            }
        }
    }
}

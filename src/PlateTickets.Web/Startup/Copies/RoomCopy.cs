using System.Data.Common;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using Npgsql;
using NpgsqlTypes;
using PlateTickets.Process;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Database;

namespace PlateTickets.Web.Startup.Copies;

/// <summary>One table, as it is on both sides.</summary>
/// <param name="Name">The table.</param>
/// <param name="Rows">How many rows it has.</param>
/// <param name="Hash">Over all rows, whatever their order.</param>
public sealed record TableFigures(string Name, long Rows, string Hash);

/// <summary>
/// Copies a SQLite room into an empty PostgreSQL database, table by table, in one transaction, and reads it back: every table must have as many rows and the
/// same hash on both sides, or nothing is kept. A row's hash is SHA-256 over its values in the order of the columns; those of a table are added up modulo
/// 2^256, so that the order in which a database hands out its rows does not matter.
/// </summary>
public static class RoomCopy
{
    private const string Head = nameof(PlateRoomDb.AuditHeads);

    /// <param name="from">The SQLite room; nobody may write into it meanwhile.</param>
    /// <param name="to">The PostgreSQL database with all migrations and no row.</param>
    /// <param name="cancel">Cancels; nothing is kept then.</param>
    /// <returns>What was copied and found equal.</returns>
    /// <exception cref="PlateRoomException">The database is not empty, or a table differs.</exception>
    public static async Task<IReadOnlyList<TableFigures>> CopyAsync(PlateRoomDb from, PlateRoomDb to, CancellationToken cancel = default)
    {
        var tables = InOrder(to);
        await from.Database.OpenConnectionAsync(cancel);
        await to.Database.OpenConnectionAsync(cancel);
        var (source, target) = ((SqliteConnection)from.Database.GetDbConnection(), (NpgsqlConnection)to.Database.GetDbConnection());
        await using var transaction = await target.BeginTransactionAsync(cancel);
        foreach (var table in tables)
        {
            var used = table.Name == Head ? " WHERE \"Count\" > 0" : "";
            if (await ScalarAsync(target, $"SELECT 1 FROM {Quoted(table)}{used} LIMIT 1", cancel) is not null)
            {
                throw new PlateRoomException($"The PostgreSQL database is not empty: its table {table.Name} has rows. Copy into a new database.");
            }
        }

        // The migrations made an empty head, which only goes forward.
        await RunAsync(target, $"ALTER TABLE \"{Head}\" DISABLE TRIGGER USER; DELETE FROM \"{Head}\"; ALTER TABLE \"{Head}\" ENABLE TRIGGER USER", cancel);
        // A column can point to a row that comes later, in its own table or through others: it is checked when all are there.
        var constraints = await DeferAsync(target, cancel);
        var figures = new List<TableFigures>();
        foreach (var table in tables)
        {
            figures.Add(await CopyAsync(table, source, target, cancel));
        }

        foreach (var undo in constraints)
        {
            await RunAsync(target, undo, cancel);
        }

        foreach (var (table, copied) in tables.Zip(figures))
        {
            await CountOnAsync(table, target, cancel);
            var there = await FiguresAsync(table, target, cancel);
            if (there != copied)
            {
                throw new PlateRoomException($"Table {table.Name} is not the same on both sides ({copied.Rows} and {there.Rows} rows, hashes {copied.Hash[..12]}… and {there.Hash[..12]}…). Nothing was kept.");
            }
        }

        await transaction.CommitAsync(cancel);
        return figures;
    }

    /// <summary>Rows and hash of every table.</summary>
    public static async Task<IReadOnlyList<TableFigures>> FiguresAsync(PlateRoomDb db, CancellationToken cancel = default)
    {
        await db.Database.OpenConnectionAsync(cancel);
        var figures = new List<TableFigures>();
        foreach (var table in InOrder(db))
        {
            figures.Add(await FiguresAsync(table, db.Database.GetDbConnection(), cancel));
        }

        return figures;
    }

    // By name: both sides have the same tables, and their columns in the same order.
    private static List<Table> InOrder(PlateRoomDb db) =>
    [
        .. db.Model.GetRelationalModel().Tables.OrderBy(t => t.Name, StringComparer.Ordinal)
            .Select(t => new Table(t.Name, [.. t.Columns.OrderBy(c => c.Name, StringComparer.Ordinal).Select(c => new Column(c.Name, Kind(c)))])),
    ];

    private static Type Kind(IColumn column)
    {
        // A column that holds a whole object as JSON belongs to no one property.
        if (column.PropertyMappings.Count == 0)
        {
            return typeof(JsonElement);
        }

        var mapping = column.PropertyMappings[0].TypeMapping;
        var type = mapping.Converter?.ProviderClrType ?? mapping.ClrType;
        return Nullable.GetUnderlyingType(type) ?? type;
    }

    private static string Quoted(Table table) => $"\"{table.Name}\"";

    private static string Columns(Table table) => string.Join(", ", table.Columns.Select(c => $"\"{c.Name}\""));

    private static async Task<TableFigures> CopyAsync(Table table, SqliteConnection source, NpgsqlConnection target, CancellationToken cancel)
    {
        await using var command = source.CreateCommand();
        // In the order of their making: the guard of the audit trail asks for it.
        command.CommandText = $"SELECT {Columns(table)} FROM {Quoted(table)} ORDER BY rowid";
        await using var rows = await command.ExecuteReaderAsync(cancel);
        await using var import = await target.BeginBinaryImportAsync($"COPY {Quoted(table)} ({Columns(table)}) FROM STDIN (FORMAT BINARY)", cancel);
        var sum = new Sum();
        while (await rows.ReadAsync(cancel))
        {
            var values = Values(table, rows);
            sum.Add(values);
            await import.StartRowAsync(cancel);
            foreach (var value in values)
            {
                await (value is null ? import.WriteNullAsync(cancel) : WriteAsync(import, value, cancel));
            }
        }

        await import.CompleteAsync(cancel);
        return sum.Of(table.Name);
    }

    private static async Task<TableFigures> FiguresAsync(Table table, DbConnection connection, CancellationToken cancel)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = $"SELECT {Columns(table)} FROM {Quoted(table)}";
        await using var rows = await command.ExecuteReaderAsync(cancel);
        var sum = new Sum();
        while (await rows.ReadAsync(cancel))
        {
            sum.Add(Values(table, rows));
        }

        return sum.Of(table.Name);
    }

    // As PostgreSQL keeps them: whole microseconds, and no character that it does not know.
    private static object?[] Values(Table table, DbDataReader rows)
    {
        var values = new object?[table.Columns.Count];
        for (var i = 0; i < values.Length; i++)
        {
            values[i] = rows.IsDBNull(i) ? null : table.Columns[i].Kind switch
            {
                var t when t == typeof(string) => PostgreSqlText.Clean(rows.GetString(i)),
                var t when t == typeof(int) => rows.GetInt32(i),
                var t when t == typeof(long) => rows.GetInt64(i),
                var t when t == typeof(bool) => rows.GetBoolean(i),
                var t when t == typeof(double) => rows.GetDouble(i),
                var t when t == typeof(DateTime) => Whole(DateTime.SpecifyKind(rows.GetDateTime(i), DateTimeKind.Utc)),
                var t when t == typeof(DateTimeOffset) => Whole(rows.GetFieldValue<DateTimeOffset>(i).UtcDateTime),
                var t when t == typeof(DateOnly) => rows.GetFieldValue<DateOnly>(i),
                var t when t == typeof(TimeOnly) => rows.GetFieldValue<TimeOnly>(i),
                var t when t == typeof(Guid) => rows.GetGuid(i),
                var t when t == typeof(byte[]) => rows.GetFieldValue<byte[]>(i),
                var t when t == typeof(JsonElement) => JsonDocument.Parse(rows.GetString(i)).RootElement,
                // SQLite keeps a list as JSON.
                var t when t == typeof(int[]) => rows is SqliteDataReader ? JsonSerializer.Deserialize<int[]>(rows.GetString(i)) : rows.GetFieldValue<int[]>(i),
                var t => throw new NotSupportedException($"{table.Name}.{table.Columns[i].Name} is a {t.Name}: say here how it is copied."),
            };
        }

        return values;
    }

    private static DateTime Whole(DateTime utc) => utc.AddTicks(-(utc.Ticks % TimeSpan.TicksPerMicrosecond));

    private static Task WriteAsync(NpgsqlBinaryImporter import, object value, CancellationToken cancel) => value switch
    {
        string v => import.WriteAsync(v, cancel),
        int v => import.WriteAsync(v, cancel),
        long v => import.WriteAsync(v, cancel),
        bool v => import.WriteAsync(v, cancel),
        double v => import.WriteAsync(v, cancel),
        DateTime v => import.WriteAsync(v, cancel),
        DateOnly v => import.WriteAsync(v, cancel),
        TimeOnly v => import.WriteAsync(v, cancel),
        Guid v => import.WriteAsync(v, cancel),
        byte[] v => import.WriteAsync(v, cancel),
        JsonElement v => import.WriteAsync(v.GetRawText(), NpgsqlDbType.Jsonb, cancel),
        int[] v => import.WriteAsync(v, cancel),
        _ => throw new NotSupportedException(value.GetType().Name),
    };

    // Makes every foreign key wait for the end of the transaction; returns how to undo it.
    private static async Task<List<string>> DeferAsync(NpgsqlConnection target, CancellationToken cancel)
    {
        var keys = new List<(string Table, string Name)>();
        await using (var command = new NpgsqlCommand("SELECT conrelid::regclass::text, quote_ident(conname) FROM pg_constraint WHERE contype = 'f' AND connamespace = current_schema()::regnamespace", target))
        await using (var rows = await command.ExecuteReaderAsync(cancel))
        {
            while (await rows.ReadAsync(cancel))
            {
                keys.Add((rows.GetString(0), rows.GetString(1)));
            }
        }

        foreach (var (table, name) in keys)
        {
            await RunAsync(target, $"ALTER TABLE {table} ALTER CONSTRAINT {name} DEFERRABLE INITIALLY DEFERRED", cancel);
        }

        return [.. keys.Count == 0 ? [] : new[] { "SET CONSTRAINTS ALL IMMEDIATE" }, .. keys.Select(k => $"ALTER TABLE {k.Table} ALTER CONSTRAINT {k.Name} NOT DEFERRABLE")];
    }

    // New rows get numbers after those that were copied.
    private static async Task CountOnAsync(Table table, NpgsqlConnection target, CancellationToken cancel)
    {
        if (table.Columns.Any(c => c.Name == "Id")
            && await ScalarAsync(target, $"SELECT pg_get_serial_sequence('{Quoted(table)}', 'Id')", cancel) is string sequence)
        {
            await RunAsync(target, $"SELECT setval('{sequence}', GREATEST((SELECT max(\"Id\") FROM {Quoted(table)}), 1), (SELECT count(*) > 0 FROM {Quoted(table)}))", cancel);
        }
    }

    private static async Task<object?> ScalarAsync(NpgsqlConnection connection, string sql, CancellationToken cancel)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        return await command.ExecuteScalarAsync(cancel) is var value && value is DBNull ? null : value;
    }

    private static async Task RunAsync(NpgsqlConnection connection, string sql, CancellationToken cancel)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync(cancel);
    }

    private sealed record Table(string Name, IReadOnlyList<Column> Columns);

    private sealed record Column(string Name, Type Kind);

    /// <summary>Rows and the sum of their hashes.</summary>
    private sealed class Sum
    {
        private readonly uint[] _words = new uint[8];
        private readonly MemoryStream _row = new();
        private long _rows;

        public void Add(object?[] values)
        {
            _row.SetLength(0);
            using (var write = new BinaryWriter(_row, Encoding.UTF8, leaveOpen: true))
            {
                foreach (var value in values)
                {
                    Write(write, value);
                }
            }

            var hash = SHA256.HashData(_row.GetBuffer().AsSpan(0, (int)_row.Length));
            ulong carry = 0;
            for (var i = 0; i < _words.Length; i++)
            {
                carry += (ulong)_words[i] + BitConverter.ToUInt32(hash, 4 * i);
                _words[i] = (uint)(carry & uint.MaxValue);
                carry >>= 32;
            }

            _rows++;
        }

        public TableFigures Of(string name) => new(name, _rows, string.Concat(_words.Select(w => w.ToString("x8", CultureInfo.InvariantCulture))));

        // Each value with its kind, so that no two rows read the same.
        private static void Write(BinaryWriter write, object? value)
        {
            switch (value)
            {
                case null:
                    write.Write((byte)0);
                    break;
                case string text:
                    write.Write((byte)1);
                    write.Write(text);
                    break;
                case int or long:
                    write.Write((byte)2);
                    write.Write(Convert.ToInt64(value, CultureInfo.InvariantCulture));
                    break;
                case bool truth:
                    write.Write(truth ? (byte)4 : (byte)3);
                    break;
                case double number:
                    write.Write((byte)5);
                    write.Write(number);
                    break;
                case DateTime instant:
                    write.Write((byte)6);
                    write.Write(instant.Ticks);
                    break;
                case DateOnly day:
                    write.Write((byte)7);
                    write.Write(day.DayNumber);
                    break;
                case TimeOnly time:
                    write.Write((byte)8);
                    write.Write(time.Ticks);
                    break;
                case Guid id:
                    write.Write((byte)9);
                    write.Write(id.ToByteArray());
                    break;
                case byte[] bytes:
                    write.Write((byte)10);
                    write.Write(bytes.Length);
                    write.Write(bytes);
                    break;
                case JsonElement json:
                    write.Write((byte)12);
                    WriteJson(write, json);
                    break;
                case int[] numbers:
                    write.Write((byte)11);
                    write.Write(numbers.Length);
                    Array.ForEach(numbers, write.Write);
                    break;
                default:
                    throw new NotSupportedException(value.GetType().Name);
            }
        }

        // PostgreSQL keeps the meaning of JSON, not the order of its names or the way its numbers are written.
        private static void WriteJson(BinaryWriter write, JsonElement json)
        {
            write.Write((byte)json.ValueKind);
            switch (json.ValueKind)
            {
                case JsonValueKind.Object:
                    write.Write(json.GetPropertyCount());
                    foreach (var property in json.EnumerateObject().OrderBy(p => p.Name, StringComparer.Ordinal))
                    {
                        write.Write(property.Name);
                        WriteJson(write, property.Value);
                    }

                    break;
                case JsonValueKind.Array:
                    write.Write(json.GetArrayLength());
                    foreach (var item in json.EnumerateArray())
                    {
                        WriteJson(write, item);
                    }

                    break;
                case JsonValueKind.Number:
                    write.Write(json.GetDouble());
                    break;
                case JsonValueKind.String:
                    write.Write(json.GetString()!);
                    break;
                default:
                    break;
            }
        }
    }
}

using System.Data.Common;

namespace PlateTickets.Tickets.Accounts.Audit;

/// <summary>The few statements of the chain, in SQL that SQLite and PostgreSQL both take.</summary>
internal static class AuditSql
{
    public const string Columns = "\"Id\", \"AtUtc\", \"By\", \"Record\", \"Key\", \"Field\", \"From\", \"To\", \"Hash\"";

    public static DbCommand Command(DbConnection connection, DbTransaction? transaction, string sql, params ReadOnlySpan<(string Name, object? Value)> values)
    {
        var command = connection.CreateCommand();
        command.Transaction = transaction;
        command.CommandText = sql;
        foreach (var (name, value) in values)
        {
            var parameter = command.CreateParameter();
            (parameter.ParameterName, parameter.Value) = (name, value ?? DBNull.Value);
            command.Parameters.Add(parameter);
        }

        return command;
    }

    /// <summary>Writes entries, all in one statement.</summary>
    public static DbCommand Insert(DbConnection connection, DbTransaction? transaction, IReadOnlyList<AuditEntry> entries)
    {
        var rows = string.Join(", ", Enumerable.Range(0, entries.Count).Select(i => $"(@id{i}, @at{i}, @by{i}, @record{i}, @key{i}, @field{i}, @from{i}, @to{i}, @hash{i})"));
        var command = Command(connection, transaction, $"INSERT INTO \"AuditEntries\" ({Columns}) VALUES {rows}");
        for (var i = 0; i < entries.Count; i++)
        {
            var entry = entries[i];
            foreach (var (name, value) in new (string, object?)[]
            {
                ("@id", entry.Id), ("@at", entry.AtUtc), ("@by", entry.By), ("@record", entry.Record), ("@key", entry.Key), ("@field", entry.Field),
                ("@from", entry.From), ("@to", entry.To), ("@hash", entry.Hash),
            })
            {
                var parameter = command.CreateParameter();
                (parameter.ParameterName, parameter.Value) = ($"{name}{i}", value ?? DBNull.Value);
                command.Parameters.Add(parameter);
            }
        }

        return command;
    }

    public static AuditEntry Entry(DbDataReader row) => new()
    {
        Id = row.GetInt64(0),
        AtUtc = DateTime.SpecifyKind(row.GetDateTime(1), DateTimeKind.Utc),
        By = row.GetString(2),
        Record = row.GetString(3),
        Key = row.GetString(4),
        Field = row.GetString(5),
        From = row.IsDBNull(6) ? null : row.GetString(6),
        To = row.IsDBNull(7) ? null : row.GetString(7),
        Hash = row.GetFieldValue<byte[]>(8),
    };

    /// <summary>The head as it stands; null where its row is gone.</summary>
    public static async Task<AuditHead?> HeadAsync(DbConnection connection, DbTransaction? transaction, CancellationToken cancel, bool locked = false)
    {
        // An update that changes nothing takes the row's lock and reads what the last writer left, on both databases.
        var sql = locked
            ? "UPDATE \"AuditHeads\" SET \"Count\" = \"Count\" WHERE \"Id\" = 1 RETURNING \"Count\", \"LastId\", \"Hash\""
            : "SELECT \"Count\", \"LastId\", \"Hash\" FROM \"AuditHeads\" WHERE \"Id\" = 1";
        await using var command = Command(connection, transaction, sql);
        await using var row = await command.ExecuteReaderAsync(cancel);
        return await row.ReadAsync(cancel)
            ? new AuditHead { Id = AuditHead.OnlyId, Count = row.GetInt64(0), LastId = row.GetInt64(1), Hash = row.GetFieldValue<byte[]>(2) }
            : null;
    }

    public static async Task KeepHeadAsync(DbConnection connection, DbTransaction? transaction, AuditHead head, CancellationToken cancel)
    {
        await using var command = Command(
            connection, transaction, "UPDATE \"AuditHeads\" SET \"Count\" = @count, \"LastId\" = @last, \"Hash\" = @hash WHERE \"Id\" = 1",
            ("@count", head.Count), ("@last", head.LastId), ("@hash", head.Hash));
        await command.ExecuteNonQueryAsync(cancel);
    }
}

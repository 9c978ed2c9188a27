using System.Data.Common;
using System.Globalization;

namespace PlateTickets.Tickets.Accounts.Audit;

/// <summary>
/// Walks the trail in the order of its numbers, some thousand entries at a time, and computes every hash again. It finds entries that were
/// changed, taken out, put in, moved, or cut off at the end. Who can write the whole table and its head can compute all of it anew: only
/// figures noted elsewhere show that.
/// </summary>
public sealed class AuditCheck(DbConnection connection)
{
    private const int AtOnce = 5000;

    private readonly AuditHasher _hasher = new();
    private byte[] _hash = AuditHasher.Start;
    private long _count;
    private long _lastId;

    /// <summary>Verifies the trail of an open connection. Entries that are added meanwhile are left for the next time.</summary>
    /// <param name="noted">Figures noted earlier that must still hold; null for none.</param>
    /// <param name="cancel">Cancels.</param>
    public async Task<AuditVerdict> WalkAsync(AuditFigures? noted = null, CancellationToken cancel = default)
    {
        if (await AuditSql.HeadAsync(connection, null, cancel) is not { } head)
        {
            return Verdict("The head of the audit trail is missing: nobody can say how many entries there should be.");
        }

        for (var entries = await ReadAsync(head.LastId, cancel); entries.Count > 0; entries = await ReadAsync(head.LastId, cancel))
        {
            for (var i = 0; i < entries.Count; i++)
            {
                if (!_hasher.Next(_hash, entries[i]).AsSpan().SequenceEqual(entries[i].Hash))
                {
                    return Verdict(Blame(entries[i], i + 1 < entries.Count ? entries[i + 1] : await AfterAsync(entries[i].Id, cancel)), entries[i].Id);
                }

                (_hash, _lastId) = (entries[i].Hash, entries[i].Id);
                _count++;
                if (noted?.Count == _count && !Same(noted.Hash))
                {
                    return Verdict($"Entry {_lastId} is number {_count} of the trail, but its hash is not the one that was noted: entries up to it were written anew.", _lastId);
                }
            }
        }

        return Verdict(await EndAsync(head, noted, cancel));
    }

    /// <summary>Count and hash as the head tells them, without walking.</summary>
    public static async Task<AuditFigures> HeadAsync(DbConnection connection, CancellationToken cancel = default) =>
        await AuditSql.HeadAsync(connection, null, cancel) is { } head
            ? new AuditFigures(head.Count, Convert.ToHexStringLower(head.Hash))
            : new AuditFigures(0, Convert.ToHexStringLower(AuditHasher.Start));

    private async Task<string?> EndAsync(AuditHead head, AuditFigures? noted, CancellationToken cancel)
    {
        if (_count != head.Count || _lastId != head.LastId)
        {
            return $"The trail ends at entry {_lastId} with {_count} entries, but its head tells of {head.Count} up to entry {head.LastId}: entries were cut off at the end or taken out.";
        }

        if (!_hash.AsSpan().SequenceEqual(head.Hash))
        {
            return $"The last entry, {_lastId}, is not the one that the head tells of: entries were written anew.";
        }

        await using var command = AuditSql.Command(
            connection, null, "SELECT min(\"Id\") FROM \"AuditEntries\" WHERE \"Id\" > (SELECT \"LastId\" FROM \"AuditHeads\" WHERE \"Id\" = 1)");
        if (await command.ExecuteScalarAsync(cancel) is { } beyond and not DBNull)
        {
            return $"Entry {beyond} lies after the head of the trail: it was put in past the program.";
        }

        if (noted?.Count > _count)
        {
            return $"There are {_count} entries, but {noted.Count} were noted earlier: entries were cut off at the end.";
        }

        return noted?.Count == 0 && noted.Hash.Any(c => c != '0') ? "A trail without entries has a head of zeros: the noted figures are mistyped." : null;
    }

    // The entry after the one that does not fit tells what happened to it.
    private string Blame(AuditEntry wrong, AuditEntry? next)
    {
        if (wrong.Hash.Length == 0)
        {
            return $"Entry {wrong.Id} has no hash: it was put in past the program.";
        }

        if (next is not null && _hasher.Next(_hash, next).AsSpan().SequenceEqual(next.Hash))
        {
            return $"Entry {wrong.Id} was put in: the one after it fits without it.";
        }

        if (wrong.Id > _lastId + 1)
        {
            var (from, to) = (_lastId + 1, wrong.Id - 1);
            return $"Before entry {wrong.Id} {(from == to ? $"entry {from} is" : $"entries {from} to {to} are")} missing: taken out, or moved elsewhere.";
        }

        return next is not null && _hasher.Next(wrong.Hash, next).AsSpan().SequenceEqual(next.Hash)
            ? $"Entry {wrong.Id} was changed after it was written."
            : $"Entry {wrong.Id} does not follow the one before it: it was changed or moved, or entries around it were.";
    }

    private AuditVerdict Verdict(string? wrong, long? id = null) => new(new AuditFigures(_count, Convert.ToHexStringLower(_hash)), wrong, id);

    private bool Same(string hex) => string.Equals(hex, Convert.ToHexStringLower(_hash), StringComparison.OrdinalIgnoreCase);

    private Task<List<AuditEntry>> ReadAsync(long to, CancellationToken cancel) => ReadAsync(_lastId, to, AtOnce, cancel);

    private async Task<AuditEntry?> AfterAsync(long id, CancellationToken cancel) => (await ReadAsync(id, long.MaxValue, 1, cancel)).FirstOrDefault();

    private async Task<List<AuditEntry>> ReadAsync(long after, long to, int most, CancellationToken cancel)
    {
        await using var command = AuditSql.Command(
            connection, null,
            // The first entry may have any number, also one below 1 that somebody chose to stay unseen.
            $"SELECT {AuditSql.Columns} FROM \"AuditEntries\" WHERE \"Id\" > @after AND \"Id\" <= @to ORDER BY \"Id\" LIMIT {most.ToString(CultureInfo.InvariantCulture)}",
            ("@after", _count == 0 && after == 0 ? long.MinValue : after), ("@to", to));
        await using var rows = await command.ExecuteReaderAsync(cancel);
        var entries = new List<AuditEntry>(Math.Min(most, AtOnce));
        while (await rows.ReadAsync(cancel))
        {
            entries.Add(AuditSql.Entry(rows));
        }

        return entries;
    }
}

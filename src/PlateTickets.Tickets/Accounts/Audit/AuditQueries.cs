using System.Linq.Expressions;
using System.Runtime.CompilerServices;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Database;

namespace PlateTickets.Tickets.Accounts.Audit;

/// <summary>What somebody looks for in the trail; an empty part asks for nothing.</summary>
/// <param name="By">Who, exactly as in the trail.</param>
/// <param name="Record">The kind of record, such as "Order".</param>
/// <param name="Keys">Which records of that kind: any of these names or numbers.</param>
/// <param name="Fields">Any of these fields, or what happened in brackets.</param>
/// <param name="Text">Anywhere in who, key, field, from and to, without regard to the case of A to Z.</param>
/// <param name="FromUtc">Included.</param>
/// <param name="ToUtc">Not included.</param>
public sealed record AuditFilter(
    string? By = null, string? Record = null, IReadOnlyList<string>? Keys = null, IReadOnlyList<string>? Fields = null, string? Text = null,
    DateTime? FromUtc = null, DateTime? ToUtc = null);

/// <summary>Entries, newest first.</summary>
/// <param name="Entries">No more than were asked for.</param>
/// <param name="OlderThan">Ask for those before this number to go on; null when there is nothing older that fits.</param>
public sealed record AuditPage(IReadOnlyList<AuditEntry> Entries, long? OlderThan);

/// <summary>
/// Searches the trail, newest first, by the key. Who, record and key have an index. Text and field have none: such a search looks at
/// <see cref="Stretch"/> entries at a time, so that one answer never reads the whole table.
/// </summary>
public sealed class AuditQueries(IDbContextFactory<PlateRoomDb> databases)
{
    public const int Stretch = 250_000;

    private const int ExportAtOnce = 2000;

    // Clocks are set back now and then: the numbers of a span of time are found by its ends, with so many entries to spare.
    private const int Unordered = 1000;

    public async Task<AuditPage> PageAsync(AuditFilter filter, long? olderThan, int most, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var (lowest, before) = await RangeAsync(db, filter, olderThan, cancel);
        var stretched = filter.Text is not null || filter.Fields is not null;
        var from = stretched ? Math.Max(lowest, before - Stretch) : lowest;
        var entries = await Matching(db.AuditEntries.AsNoTracking(), filter)
            .Where(e => e.Id >= from && e.Id < before)
            .OrderByDescending(e => e.Id)
            .Take(most)
            .ToListAsync(cancel);
        return new AuditPage(entries, entries.Count == most ? entries[^1].Id : from > lowest ? from : null);
    }

    /// <summary>Everything that fits, newest first, read in pieces.</summary>
    public async IAsyncEnumerable<AuditEntry> AllAsync(AuditFilter filter, [EnumeratorCancellation] CancellationToken cancel = default)
    {
        long? olderThan = null;
        do
        {
            var page = await PageAsync(filter, olderThan, ExportAtOnce, cancel);
            foreach (var entry in page.Entries)
            {
                yield return entry;
            }

            olderThan = page.OlderThan;
        }
        while (olderThan is not null);
    }

    /// <summary>When the entry with this number, or the one before it, was made.</summary>
    public async Task<DateTime?> TimeOfAsync(long id, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.AuditEntries.Where(e => e.Id <= id).OrderByDescending(e => e.Id).Select(e => (DateTime?)e.AtUtc).FirstOrDefaultAsync(cancel);
    }

    /// <summary>The trail's end: how many entries, and the head to note elsewhere.</summary>
    public async Task<AuditFigures> HeadAsync(CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var head = await db.AuditHeads.AsNoTracking().SingleAsync(cancel);
        return new AuditFigures(head.Count, Convert.ToHexStringLower(head.Hash));
    }

    private static async Task<(long Lowest, long Before)> RangeAsync(PlateRoomDb db, AuditFilter filter, long? olderThan, CancellationToken cancel)
    {
        var lowest = await db.AuditEntries.OrderBy(e => e.Id).Select(e => (long?)e.Id).FirstOrDefaultAsync(cancel) ?? 0;
        var before = await db.AuditEntries.OrderByDescending(e => e.Id).Select(e => (long?)e.Id).FirstOrDefaultAsync(cancel) + 1 ?? 0;
        if (filter.FromUtc is { } from)
        {
            var first = await db.AuditEntries.Where(e => e.AtUtc >= from).OrderBy(e => e.AtUtc).Select(e => (long?)e.Id).FirstOrDefaultAsync(cancel) ?? before;
            lowest = Math.Max(lowest, first - Unordered);
        }

        if (filter.ToUtc is { } to)
        {
            var last = await db.AuditEntries.Where(e => e.AtUtc < to).OrderByDescending(e => e.AtUtc).Select(e => (long?)e.Id).FirstOrDefaultAsync(cancel) ?? 0;
            before = Math.Min(before, last + Unordered);
        }

        return (lowest, Math.Min(before, olderThan ?? before));
    }

    private static IQueryable<AuditEntry> Matching(IQueryable<AuditEntry> entries, AuditFilter filter)
    {
        entries = When(entries, filter.By, by => e => e.By == by);
        entries = When(entries, filter.Record, record => e => e.Record == record);
        entries = When(entries, filter.Keys, keys => e => keys.Contains(e.Key));
        entries = When(entries, filter.Fields, fields => e => fields.Contains(e.Field));
        entries = When(entries, filter.FromUtc, from => e => e.AtUtc >= from);
        entries = When(entries, filter.ToUtc, to => e => e.AtUtc < to);
        return When(entries, filter.Text, text =>
        {
            // Small on both sides: LIKE of PostgreSQL tells capitals from small letters, that of SQLite does not.
            var like = LikePattern.Holding(text.ToLowerInvariant());
            return e => EF.Functions.Like(e.Key.ToLower(), like, "\\") || EF.Functions.Like(e.From!.ToLower(), like, "\\") || EF.Functions.Like(e.To!.ToLower(), like, "\\")
                || EF.Functions.Like(e.By.ToLower(), like, "\\") || EF.Functions.Like(e.Field.ToLower(), like, "\\");
        });
    }

    private static IQueryable<AuditEntry> When<T>(IQueryable<AuditEntry> entries, T? asked, Func<T, Expression<Func<AuditEntry, bool>>> only)
        where T : class => asked is null ? entries : entries.Where(only(asked));

    private static IQueryable<AuditEntry> When<T>(IQueryable<AuditEntry> entries, T? asked, Func<T, Expression<Func<AuditEntry, bool>>> only)
        where T : struct => asked is null ? entries : entries.Where(only(asked.Value));
}

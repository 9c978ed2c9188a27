using System.Globalization;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Orders.Search;

/// <summary>Keeps <see cref="TicketText"/> true: what was touched is read before a save, and written after it in the same transaction.</summary>
public sealed class TicketIndex
{
    private const int AtOnce = 500;

    private readonly List<Order> _orders = [];
    private readonly List<Separation> _separations = [];
    private readonly List<Placement> _placements = [];
    private readonly List<Sheet> _sheets = [];
    private readonly HashSet<int> _plates = [];

    /// <summary>What the next save touches; null for nothing that a ticket is found by.</summary>
    internal static TicketIndex? Of(PlateRoomDb db)
    {
        var index = new TicketIndex();
        foreach (var entry in db.ChangeTracker.Entries())
        {
            var (added, modified) = (entry.State == EntityState.Added, entry.State == EntityState.Modified);
            switch (entry.Entity)
            {
                case Order order when added || (modified && new[] { nameof(Order.Title), nameof(Order.CustomerId), nameof(Order.PressId), nameof(Order.MaterialId), nameof(Order.DueUtc) }.Any(f => entry.Property(f).IsModified)):
                    index._orders.Add(order);
                    break;
                case Separation separation when added || (modified && entry.Property(nameof(Separation.Colour)).IsModified):
                    index._separations.Add(separation);
                    break;
                case Placement placement when added:
                    index._placements.Add(placement);
                    break;
                case Placement placement when entry.State == EntityState.Deleted:
                    index._plates.Add(placement.PlateId);
                    break;
                case Sheet sheet when modified && entry.Property(nameof(Sheet.Lot)).IsModified:
                    index._sheets.Add(sheet);
                    break;
            }
        }

        return index._orders.Count + index._separations.Count + index._placements.Count + index._sheets.Count + index._plates.Count == 0 ? null : index;
    }

    /// <summary>Writes what the save has touched.</summary>
    internal async Task WriteAsync(PlateRoomDb db, CancellationToken cancel)
    {
        var tickets = _orders.Select(o => o.Id).Concat(_separations.Select(s => s.TicketId)).ToHashSet();
        var plates = _placements.Select(p => p.PlateId).Concat(_plates).Distinct().ToList();
        foreach (var some in plates.Chunk(AtOnce))
        {
            tickets.UnionWith(await db.Plates.Where(p => some.Contains(p.Id)).Select(p => p.TicketId).Distinct().ToListAsync(cancel));
        }

        foreach (var some in _sheets.Select(s => s.Id).Distinct().Chunk(AtOnce))
        {
            tickets.UnionWith(await db.Placements.Where(p => some.Contains(p.SheetId)).Select(p => p.Plate!.TicketId).Distinct().ToListAsync(cancel));
        }

        await WriteAsync(db, tickets, cancel);
    }

    /// <summary>Gives a text to tickets of an earlier version, which have none.</summary>
    /// <returns>How many.</returns>
    public static async Task<int> FillAsync(PlateRoomDb db, CancellationToken cancel = default)
    {
        var count = 0;
        while (await db.Tickets.Where(t => !db.TicketTexts.Any(x => x.TicketId == t.Id)).OrderBy(t => t.Id).Select(t => t.Id).Take(AtOnce).ToListAsync(cancel) is { Count: > 0 } some)
        {
            await using var transaction = await db.BeginWriteAsync(cancel);
            await WriteAsync(db, some, cancel);
            await transaction.CommitAsync(cancel);
            count += some.Count;
        }

        return count;
    }

    private static async Task WriteAsync(PlateRoomDb db, IReadOnlyCollection<int> tickets, CancellationToken cancel)
    {
        if (tickets.Count == 0)
        {
            return;
        }

        var zone = await db.Sites.OrderBy(s => s.Id).Select(s => s.TimeZoneId).FirstOrDefaultAsync(cancel) is { } id ? TimeZoneInfo.FindSystemTimeZoneById(id) : TimeZoneInfo.Utc;
        foreach (var some in tickets.Chunk(AtOnce))
        {
            var facts = await db.Orders.Where(o => some.Contains(o.Id))
                .Select(o => new { o.Id, o.Number, Customer = o.Customer!.Name, o.Title, Press = o.Press!.Name, Material = o.Material!.Name, o.DueUtc })
                .ToListAsync(cancel);
            var colours = (await db.Separations.Where(s => some.Contains(s.TicketId)).Select(s => new { s.TicketId, s.Colour }).ToListAsync(cancel)).ToLookup(s => s.TicketId, s => s.Colour);
            var sheets = (await db.Placements.Where(p => some.Contains(p.Plate!.TicketId)).Select(p => new { p.Plate!.TicketId, p.Sheet!.Number, p.Sheet.Lot }).Distinct().ToListAsync(cancel))
                .ToLookup(s => s.TicketId);
            foreach (var one in facts)
            {
                string[] words =
                [
                    one.Number, one.Customer, one.Title, one.Press, one.Material, .. colours[one.Id].Distinct(),
                    .. sheets[one.Id].Select(s => s.Number).Distinct(), .. sheets[one.Id].Select(s => s.Lot).Where(l => l.Length > 0).Distinct(),
                ];
                var due = TimeZoneInfo.ConvertTimeFromUtc(DateTime.SpecifyKind(one.DueUtc, DateTimeKind.Utc), zone);
                var (text, days) = (string.Join('\n', words.Select(w => string.Join(' ', TicketWords.Of(w)))), string.Create(CultureInfo.InvariantCulture, $"{due:yyyyMMdd} {due:yyyyMM}"));
                await db.Database.ExecuteSqlAsync(
                    $"""
                    INSERT INTO "TicketTexts" ("TicketId", "Text", "Days") VALUES ({one.Id}, {text}, {days})
                    ON CONFLICT ("TicketId") DO UPDATE SET "Text" = excluded."Text", "Days" = excluded."Days"
                    """,
                    cancel);
            }
        }
    }
}

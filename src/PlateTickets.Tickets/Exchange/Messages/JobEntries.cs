using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;

namespace PlateTickets.Tickets.Exchange.Messages;

/// <summary>Which jobs are asked for; null or empty for any.</summary>
/// <param name="QueueEntryIds">By queue entry.</param>
/// <param name="JobId">By the sender's name.</param>
/// <param name="Most">At most so many, the newest first.</param>
public sealed record JobAsk(IReadOnlyCollection<string>? QueueEntryIds = null, string JobId = "", int Most = JobEntries.MostListed);

/// <summary>Reads jobs of other programs, by index and in a fixed number of questions however many they are.</summary>
public sealed class JobEntries(IDbContextFactory<PlateRoomDb> databases, PlanBook plan, TimeProvider clock)
{
    /// <summary>Most jobs of one answer.</summary>
    public const int MostListed = 200;

    private static readonly TicketState[] Open = [TicketState.WaitingForFiles, TicketState.WaitingForLayout, TicketState.Ready, TicketState.InWork];

    /// <summary>The open jobs, or those that are asked for by name, the newest first.</summary>
    public async Task<IReadOnlyList<JobEntry>> ListAsync(JobAsk ask, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var most = Math.Clamp(ask.Most, 1, MostListed);
        IQueryable<ReceivedDocument> asked = db.ReceivedDocuments.AsNoTracking();
        if (ask.QueueEntryIds is { Count: > 0 } entries)
        {
            var firsts = entries.Select(QueueEntries.IdOf).Where(i => i > 0).Take(MostListed).ToList();
            asked = asked.Where(d => firsts.Contains(d.Id) || (d.FirstId != null && firsts.Contains(d.FirstId.Value)));
        }
        else if (ask.JobId.Length == 0)
        {
            var waiting = new[] { DocumentState.Held, DocumentState.Taken };
            var open = db.Tickets.Where(t => Open.Contains(t.State)).Select(t => t.Id);
            asked = asked.Where(d => waiting.Contains(d.State) || (d.OrderId != null && open.Contains(d.OrderId.Value)));
        }

        if (ask.JobId.Length > 0)
        {
            asked = asked.Where(d => d.JobId == ask.JobId);
        }

        var documents = await asked.OrderByDescending(d => d.Id).Take(most * 4).ToListAsync(cancel);
        return await CompleteAsync(db, [.. documents.GroupBy(d => d.FirstId ?? d.Id).Select(g => Newest(g)).Take(most)], cancel);
    }

    /// <summary>The job of a ticket; null for one that no document brought.</summary>
    public async Task<JobEntry?> OfTicketAsync(int ticketId, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var documents = await db.ReceivedDocuments.AsNoTracking().Where(d => d.OrderId == ticketId).OrderByDescending(d => d.Id).Take(50).ToListAsync(cancel);
        return documents.Count == 0 ? null : (await CompleteAsync(db, [Newest(documents)], cancel))[0];
    }

    // A change that was set aside leaves the job as the one before has it.
    private static ReceivedDocument Newest(IEnumerable<ReceivedDocument> job) =>
        job.OrderByDescending(d => d.State != DocumentState.SetAside).ThenByDescending(d => d.OrderId is not null || d.Purpose == DocumentPurpose.Order).ThenByDescending(d => d.Id).First();

    private async Task<IReadOnlyList<JobEntry>> CompleteAsync(PlateRoomDb db, List<ReceivedDocument> documents, CancellationToken cancel)
    {
        var orders = documents.Where(d => d.OrderId is not null).Select(d => d.OrderId!.Value).Distinct().ToList();
        var tickets = await db.Tickets.AsNoTracking().Include(t => t.Order).Where(t => orders.Contains(t.Id)).ToDictionaryAsync(t => t.Id, cancel);
        var plates = (await db.Plates.AsNoTracking().Where(p => orders.Contains(p.TicketId) && !p.OutOfSet).Select(p => new { p.Id, p.TicketId, p.Separation!.Colour }).ToListAsync(cancel)).ToLookup(p => p.TicketId);
        var lying = await db.Placements.Where(l => orders.Contains(l.Plate!.TicketId) && !l.Plate.OutOfSet).Select(l => new { l.PlateId, l.SheetId, l.Sheet!.State }).ToDictionaryAsync(l => l.PlateId, cancel);
        var sheets = lying.Values.Select(l => l.SheetId).Distinct().ToList();
        var passes = (sheets.Count == 0 ? [] : await db.Stages.AsNoTracking().Where(s => sheets.Contains(s.SheetId)).OrderBy(s => s.Id).ToListAsync(cancel)).ToLookup(s => s.SheetId);
        var remakes = await db.Remakes.Where(r => orders.Contains(r.TicketId)).GroupBy(r => r.TicketId).Select(g => new { g.Key, Count = g.Count() }).ToDictionaryAsync(g => g.Key, g => g.Count, cancel);
        var firsts = documents.Where(d => d.FirstId is not null).Select(d => d.FirstId!.Value).ToList();
        var came = await db.ReceivedDocuments.Where(d => firsts.Contains(d.Id)).ToDictionaryAsync(d => d.Id, d => d.ReceivedUtc, cancel);
        var now = clock.GetUtcNow().UtcDateTime;
        return
        [
            .. documents.Select(document =>
            {
                var ticket = document.OrderId is { } id ? tickets[id] : null;
                var own = plates[document.OrderId ?? 0].Select(p => lying.TryGetValue(p.Id, out var on) ? new JobPlate(p.Colour, on.SheetId, on.State) : new JobPlate(p.Colour, null, null)).ToList();
                var stages = own.Where(p => p.SheetId is not null).Select(p => p.SheetId!.Value).Distinct().SelectMany(s => passes[s]).ToList();
                return new JobEntry(
                    document, document.FirstId is { } first ? came[first] : document.ReceivedUtc, ticket, own,
                    [.. stages.Select(s => new JobPass(s.SheetId, s.Station, s.State, s.TotalSeconds, s.StartedUtc, s.StartedBy))],
                    remakes.GetValueOrDefault(document.OrderId ?? 0),
                    ticket is null ? Lateness.OnTime : LatenessOf(ticket, stages, own.Exists(p => p.SheetId is null), now));
            }),
        ];
    }

    private Lateness LatenessOf(Ticket ticket, List<Stage> stages, bool unlaid, DateTime now)
    {
        var last = stages.GroupBy(s => s.SheetId).Select(g => g.MaxBy(s => s.Station)!).ToList();
        var planned = last.Count > 0 && !unlaid && last.TrueForAll(s => s.PlannedFinishUtc is not null) ? last.Max(s => s.PlannedFinishUtc) : null;
        return ticket.DoneUtc is { } done
            ? done > ticket.Order!.DueUtc ? Lateness.Late : Lateness.OnTime
            : LatenessRules.Of(ticket.Order!.DueUtc, planned, last.Min(s => s.DueByUtc), now, plan.LateChance(ticket.Id));
    }
}

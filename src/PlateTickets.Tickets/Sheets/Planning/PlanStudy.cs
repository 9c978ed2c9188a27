using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Lateness;

namespace PlateTickets.Tickets.Sheets.Planning;

/// <summary>What is done with a plan after it was published: it is simulated, and improved while people work.</summary>
public sealed class PlanStudy(PlanBook book, PlanKeeper keeper, RoomEvents events)
{
    // A chance is known to a few percent only; the pages are told when it moved by as much.
    private const double ChanceStep = 0.05;

    /// <summary>Simulates the newest plan and tells of the tickets whose outlook changed.</summary>
    /// <param name="workers">Threads; -1 for as many as the machine has.</param>
    public bool Simulate(int workers = -1, CancellationToken cancel = default)
    {
        if (book.Now is not { } now)
        {
            return false;
        }

        var outlooks = QuietThread.Run(() => LatenessSimulation.Of(now.Live, workers: workers, cancel: cancel)).ToDictionary(o => o.TicketId);
        var atRisk = outlooks.Values.Where(o => o.LateChance >= Board.LatenessRules.RiskFrom).Select(o => o.TicketId).ToHashSet();
        var critical = CriticalStage.Of(now.Live.Request, now.Live.Plan, atRisk).ToDictionary(c => c.TicketId);
        if (!book.Add(now.Live, new RoomPlan(now.Live, outlooks, critical)))
        {
            return false;
        }

        var changed = now.Live.Request.Tickets
            .Where(t => Math.Abs(outlooks[t.Id].LateChance - (now.Outlooks.GetValueOrDefault(t.Id)?.LateChance ?? -1)) >= ChanceStep
                || critical.GetValueOrDefault(t.Id) != now.Critical.GetValueOrDefault(t.Id))
            .SelectMany(t => t.SheetIds);
        events.TellChanged(changed.ToHashSet());
        return true;
    }

    /// <summary>Searches for a better plan for a while. True when one was found that was worth publishing.</summary>
    /// <param name="within">For how long.</param>
    /// <param name="workers">Threads.</param>
    /// <param name="seed">Of the search: another one each time.</param>
    /// <param name="cancel">Stops the search; a plan found until then counts.</param>
    public async Task<bool> ImproveAsync(TimeSpan within, int workers, int seed, CancellationToken cancel = default)
    {
        if (book.Now?.Live is not { } live)
        {
            return false;
        }

        var improved = live.Copy();
        // A search takes real seconds, whatever the room's clock says.
        return QuietThread.Run(() => improved.Improve(new ImproveOptions(within, seed, workers), TimeProvider.System, cancel))
            && await keeper.AdoptAsync(live, improved, CancellationToken.None);
    }
}

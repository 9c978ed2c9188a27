using PlateTickets.Planning.Scheduling.Lateness;
using PlateTickets.Planning.Scheduling.Replanning;

namespace PlateTickets.Tickets.Sheets.Planning;

/// <summary>The plan that everybody sees, with what simulation says of it. Made once, shared by all.</summary>
/// <param name="Live">Request and plan.</param>
/// <param name="Outlooks">By ticket; empty until the plan was simulated.</param>
/// <param name="Critical">By ticket, of those that come late or may.</param>
public sealed record RoomPlan(
    LivePlan Live, IReadOnlyDictionary<int, TicketOutlook> Outlooks, IReadOnlyDictionary<int, CriticalStage> Critical);

/// <summary>Keeps the newest plan in memory. The stages in the database hold its times; this holds what can be asked of it.</summary>
public sealed class PlanBook
{
    private volatile RoomPlan? _now;

    /// <summary>Told when another plan took the place of the last one, from the thread that made it.</summary>
    public event Action? Changed;

    /// <summary>Told when more was found out about the newest plan, from the thread that did.</summary>
    public event Action? Studied;

    /// <summary>Null until the first plan is made, and while no sheet is open.</summary>
    public RoomPlan? Now => _now;

    public double? LateChance(int ticketId) => _now?.Outlooks.GetValueOrDefault(ticketId)?.LateChance;

    public CriticalStage? Critical(int ticketId) => _now?.Critical.GetValueOrDefault(ticketId);

    /// <summary>Does the simulated plan finish the ticket after its due time?</summary>
    public bool IsLate(int ticketId) =>
        _now is { } now && now.Outlooks.TryGetValue(ticketId, out var outlook) && now.Live.Request.Tickets.Any(t => t.Id == ticketId && outlook.PlannedUtc > t.DueUtc);

    internal void Set(RoomPlan? plan)
    {
        _now = plan;
        Changed?.Invoke();
    }

    /// <summary>Adds what was found out about a plan, unless another one took its place meanwhile.</summary>
    internal bool Add(LivePlan of, RoomPlan known)
    {
        if (_now?.Live != of)
        {
            return false;
        }

        _now = known;
        Studied?.Invoke();
        return true;
    }
}

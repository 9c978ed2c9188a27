using System.Diagnostics.Metrics;
using PlateTickets.Process;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Web.Startup.Nodes;

namespace PlateTickets.Web.Startup.Telemetry;

/// <summary>What is to be done at one station.</summary>
/// <param name="Station">A station.</param>
/// <param name="Waiting">Sheets that wait for it.</param>
/// <param name="Running">Sheets in its machines.</param>
/// <param name="OnHold">Sheets on hold that come to it next.</param>
public sealed record StationQueue(Station Station, int Waiting, int Running, int OnHold);

/// <summary>How the room and this node are now.</summary>
/// <param name="Queues">By station, in the order of the route.</param>
/// <param name="Late">Open tickets that come late by the plan.</param>
/// <param name="AtRisk">Open tickets that may.</param>
/// <param name="Open">Open tickets.</param>
/// <param name="PlanAge">How old the plan is; null before the first one.</param>
/// <param name="Plans">Does this node make the plan?</param>
public sealed record RoomNow(IReadOnlyList<StationQueue> Queues, int Late, int AtRisk, int Open, TimeSpan? PlanAge, bool Plans);

/// <summary>Counts the board in memory when somebody asks, and offers the figures to whoever collects them.</summary>
public sealed class RoomGauges
{
    private readonly BoardState _board;
    private readonly PlanBook _book;
    private readonly PlannerSeat _seat;
    private readonly TimeProvider _clock;

    public RoomGauges(RoomMetrics metrics, BoardState board, PlanBook book, PlannerSeat seat, TimeProvider clock)
    {
        (_board, _book, _seat, _clock) = (board, book, seat, clock);
        metrics.Meter.CreateObservableGauge("plateroom.sheets", Sheets, "{sheet}", "Open sheets by station and state.");
        metrics.Meter.CreateObservableGauge("plateroom.tickets", Tickets, "{ticket}", "Open tickets by what the plan says of their due time.");
        metrics.Meter.CreateObservableGauge("plateroom.plan.age", () => Now().PlanAge?.TotalSeconds ?? double.NaN, "s", "Time since the plan was made.");
        metrics.Meter.CreateObservableGauge("plateroom.planner", () => _seat.IsOurs ? 1 : 0, "{node}", "1 on the node that makes the plan.");
    }

    public RoomNow Now()
    {
        var now = _clock.GetUtcNow().UtcDateTime;
        var open = _board.Now.Sheets.Values.Where(s => s.IsOpen && s.Stage is not null).ToList();
        var tickets = open.SelectMany(s => s.Tickets.Select(t => (t.Id, Lateness: LatenessRules.Of(s, now)))).GroupBy(t => t.Id).Select(g => g.Max(t => t.Lateness)).ToList();
        return new RoomNow(
            [.. Process.Stations.InOrder.Select(station => new StationQueue(
                station,
                open.Count(s => s.Stage!.Station == station && s.State == SheetState.Waiting),
                open.Count(s => s.Stage!.Station == station && s.Stage.State == StageState.Running),
                open.Count(s => s.Stage!.Station == station && s.Stage.State != StageState.Running && s.State == SheetState.OnHold)))],
            tickets.Count(t => t == Lateness.Late), tickets.Count(t => t == Lateness.AtRisk), tickets.Count,
            _book.Now is { } plan ? now - plan.Live.Request.NowUtc : null, _seat.IsOurs);
    }

    private IEnumerable<Measurement<int>> Sheets() => Now().Queues.SelectMany(q => new[]
    {
        new Measurement<int>(q.Waiting, Tag("station", q.Station.ToString()), Tag("state", "waiting")),
        new Measurement<int>(q.Running, Tag("station", q.Station.ToString()), Tag("state", "running")),
        new Measurement<int>(q.OnHold, Tag("station", q.Station.ToString()), Tag("state", "on hold")),
    });

    private IEnumerable<Measurement<int>> Tickets()
    {
        var now = Now();
        return
        [
            new(now.Late, Tag("lateness", "late")),
            new(now.AtRisk, Tag("lateness", "at risk")),
            new(now.Open - now.Late - now.AtRisk, Tag("lateness", "in time")),
        ];
    }

    private static KeyValuePair<string, object?> Tag(string name, string value) => new(name, value);
}

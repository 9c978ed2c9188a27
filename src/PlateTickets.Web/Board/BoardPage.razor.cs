using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Board;

/// <summary>Every open sheet by station. The board itself is kept once for all viewers; a change re-renders the cards that it touches.</summary>
public sealed partial class BoardPage
{
    private const int UrgentShown = 6;
    private const int ColumnShown = 40;

    private Room? _room;
    private List<Column> _columns = [];
    private List<BoardSheet> _urgent = [];
    private int _late;
    private int _risk;
    private int _open;
    private int _done;
    private DateTime _minute;
    private ITimer? _timer;

    [Inject]
    public required BoardState Board { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    private DateTime Now => Clock.GetUtcNow().UtcDateTime;

    public void Dispose()
    {
        Board.Changed -= BoardChanged;
        _timer?.Dispose();
    }

    protected override async Task OnInitializedAsync()
    {
        Board.Changed += BoardChanged;
        _timer = Clock.CreateTimer(_ => BoardChanged([]), null, TimeSpan.FromSeconds(30), TimeSpan.FromSeconds(30));
        _room = await Rooms.GetAsync();
        Arrange();
    }

    private void BoardChanged(IReadOnlyCollection<int> ids) => InvokeAsync(async () =>
    {
        _room = await Rooms.GetAsync();
        Arrange();
        StateHasChanged();
    });

    private void Arrange()
    {
        var now = Now;
        // Cards show minutes: a steady minute keeps an unchanged card from being drawn again.
        _minute = now.AddTicks(-(now.Ticks % TimeSpan.TicksPerMinute));
        var open = Board.Now.Sheets.Values.Where(s => s.IsOpen && s.Stage is not null).ToList();
        var byLateness = open.ToLookup(s => LatenessRules.Of(s, now));
        _late = byLateness[Lateness.Late].Count();
        _risk = byLateness[Lateness.AtRisk].Count();
        _open = open.Count;
        _done = Board.Now.Sheets.Values.Count(s => s.State == SheetState.Done);
        _urgent = [.. byLateness[Lateness.Late].OrderBy(Spare), .. byLateness[Lateness.AtRisk].OrderByDescending(s => s.LateChance).ThenBy(Spare)];
        _columns = [.. Process.Stations.InOrder.Select(station => new Column(
            station,
            [.. open.Where(s => s.Stage!.Station == station && s.State == SheetState.Running).OrderBy(s => s.Stage!.RunEndsUtc)],
            [.. open.Where(s => s.Stage!.Station == station && s.State != SheetState.Running).OrderBy(s => s.Stage!.PlannedStartUtc ?? DateTime.MaxValue)]))];
    }

    /// <summary>Spare time against the due time itself: what a late or tight sheet is ordered and named by.</summary>
    private static TimeSpan? Spare(BoardSheet sheet) => sheet.DueUtc - sheet.PlannedDoneUtc;

    private string Where(BoardSheet sheet) => sheet.State switch
    {
        SheetState.OnHold => $"on hold: {sheet.HoldReason}",
        SheetState.Running => $"in {sheet.Stage!.Station.Title().ToLowerInvariant()}",
        _ => $"waits for {sheet.Stage!.Station.Title().ToLowerInvariant()}",
    };

    private sealed record Column(Station Station, List<BoardSheet> Running, List<BoardSheet> Waiting);
}

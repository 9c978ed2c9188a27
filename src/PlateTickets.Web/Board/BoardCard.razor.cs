using Microsoft.AspNetCore.Components;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Board;

public sealed partial class BoardCard
{
    private BoardSheet? _drawn;
    private string _now = "";
    private bool _stale;
    private Lateness _lateness;
    private string? _machine;

    [Parameter, EditorRequired]
    public required BoardSheet Sheet { get; set; }

    [Parameter, EditorRequired]
    public required Room Room { get; set; }

    /// <summary>A whole minute.</summary>
    [Parameter, EditorRequired]
    public DateTime NowUtc { get; set; }

    private string NowText => Sheet.State switch
    {
        SheetState.OnHold => $"On hold: {Sheet.HoldReason}",
        SheetState.Running when Sheet.Stage!.RunEndsUtc is { } ends => ends <= NowUtc
            ? $"Run over since {SiteClock.Near(ends, NowUtc, Room.Zone)}: take it out"
            : $"Running until {SiteClock.Near(ends, NowUtc, Room.Zone)}",
        _ when Sheet.Stage?.PlannedStartUtc is { } start => start < NowUtc
            ? $"Should have started {SiteClock.Near(start, NowUtc, Room.Zone)}"
            : $"Starts {SiteClock.Near(start, NowUtc, Room.Zone)}",
        _ => "Not planned yet",
    };

    protected override bool ShouldRender() => _stale;

    protected override void OnParametersSet()
    {
        var (now, lateness) = (NowText, LatenessRules.Of(Sheet, NowUtc));
        _stale = !ReferenceEquals(_drawn, Sheet) || _now != now || _lateness != lateness;
        (_drawn, _now, _lateness) = (Sheet, now, lateness);
        _machine = Room.EquipmentById(Sheet.Stage?.EquipmentId)?.Name;
    }
}

using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Stations;

public sealed partial class StationsPage
{
    private Room? _room;

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required BoardState Board { get; set; }

    public void Dispose() => Board.Changed -= BoardChanged;

    protected override async Task OnInitializedAsync()
    {
        Board.Changed += BoardChanged;
        _room = await Rooms.GetAsync();
    }

    private void BoardChanged(IReadOnlyCollection<int> ids) => InvokeAsync(StateHasChanged);

    private string Counts(Equipment machine, Station station)
    {
        var here = Board.Now.Sheets.Values.Where(s => s.IsOpen && s.Stage?.EquipmentId == machine.Id && s.Stage.Station == station).ToList();
        var running = here.Count(s => s.Stage!.State == StageState.Running);
        var waiting = here.Count(s => s.State == SheetState.Waiting);
        var run = running == 0 ? "empty" : machine.Slots > 1 ? $"{running} of {machine.Slots} drawers in use" : running == 1 ? "1 sheet running" : $"{running} sheets running";
        return waiting == 0 ? $"{run}, none waiting" : $"{run}, {waiting} waiting";
    }
}

using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Board;

/// <summary>
/// The shift at a glance. What is shown is made once for all who look through the same filter (<see cref="ShiftBoard"/>); this page only
/// draws the rows that changed.
/// </summary>
public sealed partial class BoardPage
{
    private const int UrgentStep = 6;
    private const int NotesShown = 5;
    private const int WaitingShown = 4;

    private Room? _room;
    private BoardLook? _look;
    private ShiftBoardView? _view;
    private BoardActions? _actions;
    private BoardAsk? _ask;
    private Station? _only;
    private int _urgentShown = UrgentStep;

    [SupplyParameterFromQuery(Name = "customer")]
    public string? CustomerAsked { get; set; }

    [SupplyParameterFromQuery(Name = "press")]
    public string? PressAsked { get; set; }

    [SupplyParameterFromQuery(Name = "material")]
    public string? MaterialAsked { get; set; }

    /// <summary>One station, with all of its sheets.</summary>
    [SupplyParameterFromQuery(Name = "station")]
    public string? StationAsked { get; set; }

    /// <summary>For a screen on the wall: large, without anything to click and without scrolling.</summary>
    [SupplyParameterFromQuery(Name = "wall")]
    public string? WallAsked { get; set; }

    [Inject]
    public required ShiftBoard Board { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required NavigationManager Navigation { get; set; }

    private string Customer => CustomerAsked ?? "";

    private string Press => PressAsked ?? "";

    private string Material => MaterialAsked ?? "";

    private bool OnWall => string.Equals(WallAsked, "true", StringComparison.OrdinalIgnoreCase);

    public void Dispose()
    {
        Board.Changed -= BoardChanged;
        _look?.Dispose();
    }

    protected override async Task OnInitializedAsync()
    {
        Board.Changed += BoardChanged;
        _actions = Viewer.Can(Right.ChangePlan) ? new BoardActions(Open) : null;
        _room = await Rooms.GetAsync();
    }

    protected override void OnParametersSet()
    {
        _only = Enum.TryParse<Station>(StationAsked, ignoreCase: true, out var station) && Enum.IsDefined(station) ? station : null;
        var filter = new BoardFilter(Customer, Press, Material);
        if (_look?.Filter != filter)
        {
            _look?.Dispose();
            _look = Board.Look(filter);
        }

        _view = _look.View;
    }

    private void BoardChanged() => InvokeAsync(async () =>
    {
        if (ReferenceEquals(_view, _look?.View))
        {
            return;
        }

        _room = await Rooms.GetAsync();
        _view = _look?.View;
        StateHasChanged();
    });

    private void ShowMore() => _urgentShown += UrgentStep;

    private void Open(BoardAsk ask)
    {
        _ask = ask;
        StateHasChanged();
    }

    private void OpenPeople() => Open(new BoardAsk(BoardDeed.People, 0, "Operators on duty"));

    private async Task CloseAsync()
    {
        _ask = null;
        _room = await Rooms.GetAsync();
    }

    private void Filter(string customer, string press, string material) => Navigation.NavigateTo(Urls.BoardWith(customer, press, material, StationAsked ?? ""));

    private string Address(bool wall = false, string? station = null) => Urls.BoardWith(Customer, Press, Material, station ?? (wall ? "" : StationAsked ?? ""), wall);

    private static string Text(ChangeEventArgs change) => change.Value as string ?? "";

    // A name that was bookmarked may have no open sheet now: it stays chosen, and is seen to be.
    private static IEnumerable<string> With(IEnumerable<string> names, string chosen) => chosen.Length == 0 || names.Contains(chosen) ? names : names.Append(chosen);
}

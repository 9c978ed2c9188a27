using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Process.Statistics;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Quality.Charts;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Quality;

/// <summary>What was made again and what it cost, most first. The question lives in the address.</summary>
public sealed partial class RemakesPage
{
    private const int Shown = 100;

    private Room? _room;
    private SitePeriod? _period;
    private RemakesOfPeriod? _remakes;
    private IReadOnlyList<ParetoBar<RemakeSum>> _bars = [];
    private RemakeBy _by = RemakeBy.Reason;
    private RemakeCost _cost = RemakeCost.Plates;
    private RemakeBy _shownBy;
    private RemakeCost _shownCost;
    private string _refusal = "";

    [Inject]
    public required RemakeFigures Figures { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required NavigationManager Navigation { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    [SupplyParameterFromQuery]
    public string? By { get; set; }

    [SupplyParameterFromQuery]
    public string? Cost { get; set; }

    [SupplyParameterFromQuery]
    public string? From { get; set; }

    [SupplyParameterFromQuery]
    public string? To { get; set; }

    private string CsvAddress => Navigation.GetUriWithQueryParameters(Urls.RemakesCsv, new Dictionary<string, object?> { ["from"] = _period!.FromText, ["to"] = _period.ToText });

    private string Label => $"Pareto chart of remakes by {RemakeFigures.Title(_shownBy)}, in {RemakeFigures.Title(_shownCost)}: "
        + string.Join(", ", _bars.Take(3).Select(b => $"{b.Item.Title} {Numbers.ForPeople(b.Weight, 2)}")) + (_bars.Count > 3 ? " and others." : ".");

    protected override async Task OnParametersSetAsync()
    {
        _refusal = "";
        _period = null;
        try
        {
            Viewer.Require(Right.SeeFigures);
            _room = await Rooms.GetAsync();
            var period = SitePeriod.Read(From, To, Clock.GetUtcNow().UtcDateTime, _room.Zone);
            (_by, _cost) = (Known(By, RemakeBy.Reason), Known(Cost, RemakeCost.Plates));
            _remakes = await Figures.ReadAsync(period);
            (_period, _shownBy, _shownCost) = (period, _by, _cost);
            _bars = RemakeFigures.Sums(_remakes.Facts, _by, _cost);
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }
    }

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static T Known<T>(string? text, T usual)
        where T : struct, Enum => Enum.TryParse<T>(text, ignoreCase: true, out var known) && Enum.IsDefined(known) ? known : usual;

    private Dictionary<string, object?> Choices() => new() { ["by"] = _by.ToString(), ["cost"] = _cost.ToString() };
}

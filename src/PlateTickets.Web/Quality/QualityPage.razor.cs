using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Process.Statistics;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Quality.Charts;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Quality;

/// <summary>The lead's control charts. What is charted lives in the address.</summary>
public sealed partial class QualityPage
{
    private const int PointsShown = 100;
    private const int SignalsShown = 8;

    private Room? _room;
    private QualityAsk? _ask;
    private QualityChart? _chart;
    private QualityText? _text;
    private string _refusal = "";
    private QualityMeasure _measure = QualityMeasure.Floor;
    private Station _station = PlateTickets.Process.Station.Imaging;
    private int _material;
    private int _equipment;
    private QualityGrouping _grouping = QualityGrouping.Singles;

    [Inject]
    public required QualityQueries Queries { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required NavigationManager Navigation { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    [SupplyParameterFromQuery]
    public string? Measure { get; set; }

    [SupplyParameterFromQuery]
    public string? Station { get; set; }

    [SupplyParameterFromQuery]
    public int? Material { get; set; }

    [SupplyParameterFromQuery]
    public int? Equipment { get; set; }

    [SupplyParameterFromQuery]
    public string? Grouping { get; set; }

    [SupplyParameterFromQuery]
    public string? From { get; set; }

    [SupplyParameterFromQuery]
    public string? To { get; set; }

    private IEnumerable<Equipment> Machines => _ask is null ? [] : (_ask with { Measure = _measure, Station = _station }).Machines(_room!);

    private string CsvAddress => Navigation.GetUriWithQueryParameters(
        Urls.QualityCsv, Choices().Append(new("from", _ask!.Period.FromText)).Append(new("to", _ask.Period.ToText)).ToDictionary());

    private string PlaceAxis => $"{(_ask!.IsLength ? _text!.Title : "Of computed time")}, {_text!.Unit}";

    private string SpreadAxis => $"Range, {_text!.Unit}";

    private string PlaceLabel => $"{_text!.Title}, {_chart!.Groups.Count} points about {_text.Figure(_chart.Control!.Place.Centre)}, "
        + $"control limits {_text.Figure(_chart.Control.Place.Points[^1].Lower)} to {_text.Figure(_chart.Control.Place.Points[^1].Upper)}, {_chart.Signals.Count(s => s.Rule != ControlRule.SpreadOutside)} signals.";

    private string SpreadLabel => $"Ranges with a mean of {_text!.Spread(_chart!.Control!.Spread.Centre)}, {_chart.Signals.Count(s => s.Rule == ControlRule.SpreadOutside)} beyond their limits.";

    private string RecipeLimits => (_chart!.Limits.From, _chart.Limits.To) switch
    {
        ({ } from, { } to) => $"{_text!.Figure(from)} to {_text.Figure(to)}",
        ({ } from, null) => $"{_text!.Figure(from)} or more",
        (null, { } to) => $"{_text!.Figure(to)} or less",
        _ => "none",
    };

    protected override async Task OnParametersSetAsync()
    {
        (_refusal, _ask) = ("", null);
        try
        {
            Viewer.Require(Right.SeeFigures);
            _room = await Rooms.GetAsync();
            var ask = QualityAsk.Read(_room, Measure, Station, Material, Equipment, Grouping, SitePeriod.Read(From, To, Clock.GetUtcNow().UtcDateTime, _room.Zone));
            (_ask, _measure, _station, _material, _equipment, _grouping) = (ask, ask.Measure, ask.Station, ask.MaterialId, ask.EquipmentId ?? 0, ask.Grouping);
            _text = new QualityText(ask, Viewer.Units);
            _chart = QualityChart.Of(ask, await Queries.ReadAsync(ask), _room);
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }
    }

    private Dictionary<string, object?> Choices() => new()
    {
        ["measure"] = _measure.ToString(),
        ["station"] = _measure == QualityMeasure.StageTime ? _station.ToString() : null,
        ["material"] = _material,
        // A machine of another measure's stations has none of its values.
        ["equipment"] = _equipment != 0 && Machines.Any(m => m.Id == _equipment) ? _equipment : null,
        ["grouping"] = _grouping.ToString(),
    };

    private double? Range(int index)
    {
        var at = index - (_chart!.Groups.Count - _chart.Control!.Spread.Points.Count);
        return at < 0 ? null : _chart.Control.Spread.Points[at].Value;
    }

    private string SignalsAt(QualityGroup group) => string.Join(", ", _chart!.Signals.Where(s => ReferenceEquals(s.At, group)).Select(s => s.Rule == ControlRule.SpreadOutside ? "range" : $"rule {(int)s.Rule}"));

    private string Moment(QualitySignal signal) => ReferenceEquals(signal.First, signal.At)
        ? SiteClock.Moment(signal.At.AtUtc, _room!.Zone)
        : $"{SiteClock.Moment(signal.First.FromUtc, _room!.Zone)} to {SiteClock.Moment(signal.At.AtUtc, _room.Zone)}";

    private static string Some(QualityGroup group, Func<QualityValue, string> what) => string.Join(", ", group.Values.Select(what).Where(t => t.Length > 0).Distinct());
}

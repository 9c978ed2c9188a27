using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Stations;

public sealed partial class WrongPanel
{
    private readonly HashSet<int> _plates = [];
    private bool _whole;
    private bool _atOnce = true;
    private PlateDefect _defect = PlateDefect.Scratch;
    private string _causedAt = "";
    private string _foundAt = "";
    private string _words = "";
    private string _why = "";

    [Parameter, EditorRequired]
    public required SheetView View { get; set; }

    [Parameter, EditorRequired]
    public Station At { get; set; }

    [Parameter, EditorRequired]
    public required Equipment Machine { get; set; }

    [Parameter, EditorRequired]
    public required Room Room { get; set; }

    [Parameter, EditorRequired]
    public DateTime NowUtc { get; set; }

    [Parameter, EditorRequired]
    public required string By { get; set; }

    [Parameter, EditorRequired]
    public required Func<Func<Task<string>>, Task> Act { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required StageDesk Stages { get; set; }

    [Inject]
    public required RemakeDesk Remakes { get; set; }

    private Stage? Next => View.Sheet.Stages.Where(s => s.State != StageState.Done).MinBy(s => s.Station);

    protected override void OnInitialized()
    {
        _causedAt = _foundAt = At.ToString();
        _whole = View.Sheet.Placements.Count(p => !p.Plate!.OutOfSet) == 1;
    }

    private void Toggle(int plateId, bool spoilt)
    {
        if (spoilt)
        {
            _plates.Add(plateId);
        }
        else
        {
            _plates.Remove(plateId);
        }
    }

    private Task HoldAsync(string reason) => Act(async () =>
    {
        Viewer.Require(Right.WorkStations);
        await Stages.HoldAsync(View.Sheet.Number, $"{reason}, seen at {Machine.Name}", By);
        return $"Sheet {TrackingNumber.ForPeople(View.Sheet.Number)} is on hold: {reason}. Put it aside and ask the lead.";
    });

    private Task RemakeAsync() => Act(async () =>
    {
        Viewer.Require(Right.WorkStations);
        if (!_whole && _plates.Count == 0)
        {
            throw new PlateRoomException("Tick the plates that are made again, or the whole sheet.");
        }

        return (await Remakes.RemakeAsync(
            new(View.Sheet.Number, _whole ? [] : [.. _plates], _defect, _words, Place(_causedAt), Place(_foundAt), _atOnce), By)).Sentence;
    });

    private Task GoOnAsync() => Act(async () =>
    {
        Viewer.Require(Right.DecideStages);
        await Stages.GoOnAsync(View.Sheet.Number, _why, By);
        return $"Sheet {TrackingNumber.ForPeople(View.Sheet.Number)} may go on. Scan it to start.";
    });

    private Task SkipAsync() => Act(() =>
    {
        Viewer.Require(Right.DecideStages);
        return Stages.SkipAsync(View.Sheet.Number, _why, By);
    });

    private Task RepeatAsync(Station station) => Act(() =>
    {
        Viewer.Require(Right.DecideStages);
        return Stages.RepeatAsync(View.Sheet.Number, station, _why, By);
    });

    private static Station? Place(string value) => Enum.TryParse<Station>(value, out var station) ? station : null;
}

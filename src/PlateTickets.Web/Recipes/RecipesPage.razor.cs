using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using PlateTickets.Process;
using PlateTickets.Process.Exposure;
using PlateTickets.Process.Recipes;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stock;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Recipes;

/// <summary>The lead's page: what each recipe computes today, and the lamps that it depends on.</summary>
public sealed partial class RecipesPage
{
    private const int ReadingsShown = 200;
    private const int TroublesShown = 12;
    private const long LongestCsv = 1 << 20;

    private readonly Dictionary<(int Frame, LampBank Bank), double?> _typed = [];
    private Room? _room;
    private List<Equipment> _frames = [];
    private List<LampReadingEntry> _readings = [];
    private IReadOnlyList<CsvTrouble> _troubles = [];
    private string? _imported;
    private string? _told;
    private bool _refused;

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required LampReadings Readings { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required RecipeBook Recipes { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    private DateTime Now => Clock.GetUtcNow().UtcDateTime;

    protected override Task OnInitializedAsync() => ReadAsync();

    private async Task ReadAsync()
    {
        _room = await Rooms.GetAsync();
        _frames = [.. _room.Equipment.Where(e => e.Serves.Contains(Station.BackExposure) || e.Serves.Contains(Station.FaceExposure))];
        _readings = await Readings.LatestAsync(ReadingsShown);
    }

    private async Task SaveReadingAsync(Equipment frame, LampBank bank)
    {
        try
        {
            Viewer.Require(Right.KeepRecipes);
            await Readings.AddAsync(frame.Id, bank, Typed(frame.Id, bank)!.Value, Viewer.Name);
            _refused = false;
            _told = $"Reading of {frame.Name} saved. Exposures that have not started are timed with it.";
            _typed.Remove((frame.Id, bank));
            await ReadAsync();
        }
        catch (PlateRoomException refused)
        {
            _refused = true;
            _told = refused.Message;
        }
    }

    private async Task ImportAsync(InputFileChangeEventArgs chosen)
    {
        (_imported, _troubles) = (null, []);
        if (chosen.File.Size > LongestCsv)
        {
            _troubles = [new CsvTrouble(1, $"The file has {chosen.File.Size >> 20} MiB; recipes take a few KiB. It is another file.")];
            return;
        }

        using var bytes = new MemoryStream();
        await using (var stream = chosen.File.OpenReadStream(LongestCsv))
        {
            await stream.CopyToAsync(bytes);
        }

        bytes.Position = 0;
        using var text = new StreamReader(bytes);
        var read = RecipeCsv.Import(text, _room!.Materials, id => _room.Released(id)?.Settings);
        _troubles = read.Troubles;
        var changed = read.ByMaterial.Where(r => _room.Released(r.Key)!.Settings != r.Value).ToDictionary();
        if (_troubles.Count > 0)
        {
            return;
        }

        try
        {
            Viewer.Require(Right.KeepRecipes);
            await Recipes.DraftAllAsync(changed, Viewer.Name);
            _imported = changed.Count == 0
                ? "The file says what the released recipes say: nothing to change."
                : $"Drafts made for {string.Join(", ", changed.Keys.Select(k => _room.Materials[k].Name))}. Look at each comparison, then release.";
            await ReadAsync();
        }
        catch (PlateRoomException refused)
        {
            _troubles = [new CsvTrouble(0, refused.Message)];
        }
    }

    private double? Typed(int frame, LampBank bank) => _typed.GetValueOrDefault((frame, bank));

    private List<LampReadingEntry> ReadingsOf(Equipment frame, LampBank bank) => _readings.FindAll(r => r.EquipmentId == frame.Id && r.Bank == bank);

    private LampTrend? Trend(Equipment frame, LampBank bank) =>
        LampTrend.Of(ReadingsOf(frame, bank).Select(r => new LampReading(r.IrradianceMwPerCm2, r.ReadUtc)));

    /// <summary>When the next reading is due, and when the lamps will be used up.</summary>
    private string Ageing(Equipment frame, LampBank bank)
    {
        var due = SiteClock.Moment(ReadingsOf(frame, bank)[0].ReadUtc.AddHours(frame.ReadingValidHours), _room!.Zone);
        var text = $"Next reading due {due}.";
        if (Trend(frame, bank) is not { } trend)
        {
            return text + " Three readings make a trend.";
        }

        return trend.LimitReached() is { } end
            ? $"{text} Falling {Numbers.ForPeople(-trend.PerDay * 7, 2)} mW/cm² a week: below the usable {Numbers.ForPeople(trend.LimitMwPerCm2)} mW/cm² about {Day(end.Expected)}{Between(end.Earliest, end.Latest)}."
            : $"{text} No fall to be seen.";
    }

    private string Day(DateTime utc) => SiteClock.Local(utc, _room!.Zone).ToString("d MMM yyyy", CultureInfo.InvariantCulture);

    private string Between(DateTime? earliest, DateTime? latest) =>
        earliest is { } from && latest is { } to ? $" (95 % confidence: {Day(from)} to {Day(to)})" : "";

    private string Before(LampReadingEntry newest)
    {
        var before = _readings.FindAll(r => r.EquipmentId == newest.EquipmentId && r.Bank == newest.Bank).Skip(1).FirstOrDefault();
        return before is null ? "" : $"; before that {Value(before.IrradianceMwPerCm2)}";
    }

    private StockSize? Largest(int materialId) =>
        _room!.StockSizes.Where(s => s.MaterialId == materialId).MaxBy(s => (long)s.WidthUm * s.LengthUm);

    private string SampleSize(int materialId) => Largest(materialId) is { } size
        ? Viewer.Units.Size(size.WidthUm / 1000.0, size.LengthUm / 1000.0)
        : Viewer.Units.Size(900, 1200);

    private IEnumerable<(Station Station, string Machine, StageTime? Time, string? Refusal)> Sample(int materialId)
    {
        var recipe = _room!.Released(materialId)!.Settings;
        var size = Largest(materialId);
        var sheet = new SheetFacts(size?.WidthUm / 1000.0 ?? 900, size?.LengthUm / 1000.0 ?? 1200, (size?.WidthUm / 1000.0 ?? 900) - (2 * _room.Site.SideMarginUm / 1000.0));
        foreach (var station in recipe.Route)
        {
            foreach (var machine in _room.For(station, recipe))
            {
                StageTime? time = null;
                string? refusal = null;
                try
                {
                    time = StageTimes.Compute(station, recipe, _room.Facts[machine.Id], sheet, Now, Viewer.Units);
                }
                catch (PlateRoomException refused)
                {
                    refusal = refused.Message;
                }

                yield return (station, machine.Name, time, refusal);
            }
        }
    }

    private static string Value(double value) => value.ToString("0.0##", CultureInfo.InvariantCulture);
}

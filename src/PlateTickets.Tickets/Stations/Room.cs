using PlateTickets.Planning.Nesting;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Stations.Duty;
using PlateTickets.Tickets.Stock;

namespace PlateTickets.Tickets.Stations;

/// <summary>What rarely changes in the room, read once and shared by all: equipment with its newest readings, materials, recipes, presses, shifts.</summary>
public sealed class Room
{
    public required Site Site { get; init; }

    public required TimeZoneInfo Zone { get; init; }

    public required IReadOnlyList<Equipment> Equipment { get; init; }

    public required IReadOnlyDictionary<int, EquipmentFacts> Facts { get; init; }

    public required IReadOnlyDictionary<int, Material> Materials { get; init; }

    public required IReadOnlyDictionary<int, RecipeRevision> Revisions { get; init; }

    public required IReadOnlyList<StockSize> StockSizes { get; init; }

    public required IReadOnlyList<Press> Presses { get; init; }

    // A sheet more is loaded, unloaded and carried at seven stations: it must save this much material, 0.15 m2. Our choice, no published figure.
    private const long OneSheetMoreUm2 = 150_000_000_000;

    /// <summary>Free rims and gaps for the layout.</summary>
    public NestRules NestRules => new(Site.KnifeGapUm, Site.ClampMarginUm, Site.SideMarginUm) { AreaPerSheet = OneSheetMoreUm2 };

    /// <summary>The newest released revision of a material's recipe, or null.</summary>
    public RecipeRevision? Released(int materialId) =>
        Revisions.Values.Where(r => r.MaterialId == materialId && r.State == RecipeState.Released).MaxBy(r => r.Number);

    public Equipment? EquipmentBySlug(string slug) => Equipment.FirstOrDefault(e => e.Slug == slug);

    public Equipment? EquipmentById(int? id) => Equipment.FirstOrDefault(e => e.Id == id);

    /// <summary>The machines that can do a station for a recipe.</summary>
    public IEnumerable<Equipment> For(Station station, RecipeSettings recipe) =>
        Equipment.Where(e => CanDo(e, station, recipe));

    /// <summary>Machines that are down now or later, as was said; also those of the last days.</summary>
    public IReadOnlyList<EquipmentDowntime> Downtimes { get; init; } = [];

    public IReadOnlyList<DutyChange> DutyChanges { get; init; } = [];

    /// <summary>Does every shift say how many operators it has?</summary>
    public bool CountsOperators => Site.Shifts.Count > 0 && Site.Shifts.All(s => s.Operators > 0);

    /// <summary>Why and until when a machine is down at an instant; null when it is in use.</summary>
    public EquipmentDowntime? DownAt(int equipmentId, DateTime utc) =>
        Downtimes.Where(d => d.EquipmentId == equipmentId && d.FromUtc <= utc && utc < d.ToUtc).MaxBy(d => d.ToUtc);

    public static bool CanDo(Equipment equipment, Station station, RecipeSettings recipe) =>
        equipment.Serves.Contains(station) && (station != Station.Washout || equipment.Process == recipe.Washout.Process);

    /// <summary>Attended working time between two instants (UTC).</summary>
    public WorkingTime WorkingBetween(DateTime fromUtc, DateTime toUtc) => WorkingTime.FromShifts(
        [.. Site.Shifts.Select(s => s.ToShift())], Site.ClosedDays.Select(c => c.Day).ToHashSet(), Zone, fromUtc, toUtc);

    /// <summary>The shifts that touch [from, to), each with its day.</summary>
    public IReadOnlyList<ShiftDay> ShiftsBetween(DateTime fromUtc, DateTime toUtc) => ShiftDays.Between(
        [.. Site.Shifts.Select(s => s.ToShift())], Site.ClosedDays.Select(c => c.Day).ToHashSet(), Zone, fromUtc, toUtc);

    /// <summary>The time of one shift.</summary>
    public WorkingTime WorkingBetween(DateTime fromUtc, DateTime toUtc, ShiftEntry shift) =>
        WorkingTime.FromShifts([shift.ToShift()], Site.ClosedDays.Select(c => c.Day).ToHashSet(), Zone, fromUtc, toUtc);
}

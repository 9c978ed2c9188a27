using PlateTickets.Process;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Quality.Charts;

/// <summary>What is charted.</summary>
public enum QualityMeasure
{
    /// <summary>Floor in mm.</summary>
    Floor = 1,

    /// <summary>Relief in mm.</summary>
    Relief = 2,

    /// <summary>Total thickness in mm.</summary>
    Thickness = 3,

    /// <summary>The time that a stage took, in percent of the computed one.</summary>
    StageTime = 4,
}

/// <summary>How values are put together.</summary>
public enum QualityGrouping
{
    /// <summary>Each by itself: individuals and moving range.</summary>
    Singles = 1,

    /// <summary>Those of one shift: averages and ranges.</summary>
    Shifts = 2,

    /// <summary>Five in a row: averages and ranges.</summary>
    Fives = 3,
}

/// <summary>Which chart.</summary>
/// <param name="Measure">What is charted.</param>
/// <param name="Station">For <see cref="QualityMeasure.StageTime"/>: whose time.</param>
/// <param name="MaterialId">Values of several materials never share a chart.</param>
/// <param name="EquipmentId">Where it was read or done; null for all.</param>
/// <param name="Grouping">How values are put together.</param>
/// <param name="Period">Which days.</param>
public sealed record QualityAsk(QualityMeasure Measure, Station Station, int MaterialId, int? EquipmentId, QualityGrouping Grouping, SitePeriod Period)
{
    /// <summary>Lengths in mm, or percent?</summary>
    public bool IsLength => Measure != QualityMeasure.StageTime;

    /// <summary>The question as somebody typed it into an address; what is missing is the usual.</summary>
    /// <exception cref="PlateRoomException">It cannot be understood, or names what is not there.</exception>
    public static QualityAsk Read(Room room, string? measure, string? station, int? material, int? equipment, string? grouping, SitePeriod period)
    {
        var first = room.Materials.Values.OrderBy(m => m.Id).FirstOrDefault() ?? throw new PlateRoomException("This room has no plate material yet: there is nothing to chart.");
        var materialId = material ?? first.Id;
        return !room.Materials.ContainsKey(materialId) ? throw new PlateRoomException("There is no such material.")
            : equipment is not null && room.EquipmentById(equipment) is null ? throw new PlateRoomException("There is no such machine.")
            : new(Of(measure, QualityMeasure.Floor, "measure"), Of(station, Station.Imaging, "station"), materialId, equipment, Of(grouping, QualityGrouping.Singles, "grouping"), period);
    }

    public static string Title(QualityMeasure measure) => measure switch
    {
        QualityMeasure.Floor => "Floor",
        QualityMeasure.Relief => "Relief",
        QualityMeasure.Thickness => "Total thickness",
        QualityMeasure.StageTime => "Stage time",
        _ => throw new ArgumentOutOfRangeException(nameof(measure), measure, "There is no such measure."),
    };

    public static string Title(QualityGrouping grouping) => grouping switch
    {
        QualityGrouping.Singles => "single values (I-MR)",
        QualityGrouping.Shifts => "by shift (X-bar, R)",
        QualityGrouping.Fives => "five in a row (X-bar, R)",
        _ => throw new ArgumentOutOfRangeException(nameof(grouping), grouping, "There is no such grouping."),
    };

    /// <summary>The machines at which such values come about.</summary>
    public IEnumerable<Equipment> Machines(Room room)
    {
        var stations = Measure switch
        {
            QualityMeasure.StageTime => [Station],
            _ => Process.Stations.InOrder.Where(s => ReadingRules.For(s).Contains(Reading)),
        };
        return room.Equipment.Where(e => e.Serves.Exists(s => stations.Contains(s)));
    }

    internal ReadingKind Reading => Measure switch
    {
        QualityMeasure.Floor => ReadingKind.Floor,
        QualityMeasure.Relief => ReadingKind.Relief,
        QualityMeasure.Thickness => ReadingKind.Thickness,
        _ => throw new InvalidOperationException("A stage time is no reading."),
    };

    private static T Of<T>(string? text, T usual, string what)
        where T : struct, Enum => string.IsNullOrWhiteSpace(text)
        ? usual
        : Enum.TryParse<T>(text, ignoreCase: true, out var value) && Enum.IsDefined(value)
            ? value
            : throw new PlateRoomException($"There is no {what} “{text}”: use one of {string.Join(", ", Enum.GetNames<T>())}.");
}

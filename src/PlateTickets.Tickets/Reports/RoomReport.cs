using PlateTickets.Process;
using PlateTickets.Process.Statistics;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Reports;

/// <summary>A ticket that was done, or due, in a period.</summary>
public sealed record ReportTicket(DateTime EnteredUtc, DateTime DueUtc, DateTime? DoneUtc)
{
    public bool IsOnTime => DoneUtc <= DueUtc;
}

/// <summary>A sheet that was done in a period; areas in square micrometres.</summary>
/// <param name="AreaUm2">The raw sheet, without the remnant that was cut off it.</param>
/// <param name="Plates">Plates on it that were not spoilt.</param>
/// <param name="PlatesUm2">Their area.</param>
public sealed record ReportSheet(long AreaUm2, int Plates, long PlatesUm2);

/// <summary>Work of one machine that ended in a period, in seconds, computed by the recipes.</summary>
/// <param name="EquipmentId">The machine.</param>
/// <param name="RunSeconds">It ran.</param>
/// <param name="AttendedSeconds">Somebody stood at it.</param>
/// <param name="TakenSeconds">It could not take another sheet.</param>
public sealed record ReportMachine(int EquipmentId, long RunSeconds, long AttendedSeconds, long TakenSeconds);

/// <summary>Waiting before a station, counted in working time.</summary>
public sealed record ReportQueue(Station Station, int Stages, double Minutes);

/// <summary>Remakes of a period.</summary>
public sealed record ReportRemakes(int Plates, long AreaUm2, long SpentSeconds);

/// <summary>Everything that a report adds up, of one period.</summary>
public sealed record ReportFacts
{
    public required SitePeriod Period { get; init; }

    /// <summary>Done in the period.</summary>
    public required IReadOnlyList<ReportTicket> Done { get; init; }

    /// <summary>Due in the period and by now; cancelled ones are left out.</summary>
    public required IReadOnlyList<ReportTicket> Due { get; init; }

    public required IReadOnlyList<ReportSheet> Sheets { get; init; }

    public required IReadOnlyList<ReportMachine> Machines { get; init; }

    public required IReadOnlyList<ReportQueue> Queues { get; init; }

    public required ReportRemakes Remakes { get; init; }

    /// <summary>Working time of the period up to now, in seconds, by the shifts as they are today.</summary>
    public required double WorkingSeconds { get; init; }

    /// <summary>There was more than a report reads: its sums are of the newest part.</summary>
    public required bool More { get; init; }
}

/// <summary>What more of a figure means.</summary>
public enum ReportSense
{
    /// <summary>Neither.</summary>
    Plain = 0,
    MoreIsBetter = 1,
    LessIsBetter = 2,
}

/// <summary>One line of a report.</summary>
/// <param name="Section">Its heading.</param>
/// <param name="Title">What it is.</param>
/// <param name="Unit">"%", "h", "m²", or empty for a count.</param>
/// <param name="Value">Null where there is nothing to say.</param>
/// <param name="Before">The same of the period before.</param>
/// <param name="Decimals">How many are worth showing.</param>
/// <param name="Sense">What more of it means.</param>
public sealed record ReportLine(string Section, string Title, string Unit, double? Value, double? Before, int Decimals, ReportSense Sense)
{
    /// <summary>Value minus before, of the figures as they are shown.</summary>
    public double? Change => Math.Round(Value ?? double.NaN, Decimals, MidpointRounding.AwayFromZero) - Math.Round(Before ?? double.NaN, Decimals, MidpointRounding.AwayFromZero) is var change && double.IsNaN(change)
        ? null
        : Math.Round(change, Decimals);
}

/// <summary>The figures of a period beside those of the one before.</summary>
public sealed record RoomReport(SitePeriod Period, IReadOnlyList<ReportLine> Lines, bool More)
{
    public static RoomReport Of(ReportFacts now, ReportFacts before, Room room)
    {
        ReportLine Line(string section, string title, string unit, Func<ReportFacts, double?> figure, int decimals = 0, ReportSense sense = ReportSense.Plain) =>
            new(section, title, unit, figure(now), figure(before), decimals, sense);

        return new(
            now.Period,
            [
                Line("Promises", "Tickets done", "", f => f.Done.Count),
                Line("Promises", "Done on time", "%", f => Share(f.Done.Count(t => t.IsOnTime), f.Done.Count), 1, ReportSense.MoreIsBetter),
                Line("Promises", "Tickets due", "", f => f.Due.Count),
                Line("Promises", "Promise kept", "%", f => Share(f.Due.Count(t => t.IsOnTime), f.Due.Count), 1, ReportSense.MoreIsBetter),
                Line("Promises", "Lead time, median", "h", f => Lead(f, 0.5), 1, ReportSense.LessIsBetter),
                Line("Promises", "Lead time, 90th percentile", "h", f => Lead(f, 0.9), 1, ReportSense.LessIsBetter),
                Line("Throughput", "Sheets done", "", f => f.Sheets.Count),
                Line("Throughput", "Plates on them", "", f => f.Sheets.Sum(s => s.Plates)),
                Line("Throughput", "Area of the plates", "m²", f => SquareMetres(f.Sheets.Sum(s => s.PlatesUm2)), 1),
                Line("Material", "Area of the sheets", "m²", f => SquareMetres(f.Sheets.Sum(s => s.AreaUm2)), 1),
                Line("Material", "Sheet waste", "%", f => f.Sheets.Count == 0 ? null : 100 - Share(f.Sheets.Sum(s => s.PlatesUm2), f.Sheets.Sum(s => s.AreaUm2)), 1, ReportSense.LessIsBetter),
                Line("Remakes", "Plates made again", "", f => f.Remakes.Plates, 0, ReportSense.LessIsBetter),
                Line("Remakes", "Material lost", "m²", f => SquareMetres(f.Remakes.AreaUm2), 2, ReportSense.LessIsBetter),
                Line("Remakes", "Work lost", "min", f => f.Remakes.SpentSeconds / 60.0, 0, ReportSense.LessIsBetter),
                .. Process.Stations.InOrder.SelectMany(s => new[]
                {
                    Line("Waiting", $"Before {s.Title().ToLowerInvariant()}", "min", f => f.Queues.Where(q => q.Station == s).Sum(q => q.Minutes), 0, ReportSense.LessIsBetter),
                    Line("Waiting", $"Before {s.Title().ToLowerInvariant()}, for each sheet", "min", f => f.Queues.FirstOrDefault(q => q.Station == s) is { Stages: > 0 } q ? q.Minutes / q.Stages : null, 1, ReportSense.LessIsBetter),
                }),
                .. room.Equipment.SelectMany(e => new[]
                {
                    Line("Machines", $"{e.Name}, run", "h", f => Hours(Machine(f, e.Id)?.RunSeconds ?? 0), 1),
                    Line("Machines", $"{e.Name}, attended", "h", f => Hours(Machine(f, e.Id)?.AttendedSeconds ?? 0), 1),
                    Line("Machines", $"{e.Name}, use of working time", "%", f => f.WorkingSeconds > 0 ? 100 * (Machine(f, e.Id)?.TakenSeconds ?? 0) / (f.WorkingSeconds * e.Slots) : null, 1),
                }),
            ],
            now.More || before.More);
    }

    private static ReportMachine? Machine(ReportFacts facts, int id) => facts.Machines.FirstOrDefault(m => m.EquipmentId == id);

    private static double? Share(double part, double whole) => whole > 0 ? 100 * part / whole : null;

    private static double? Lead(ReportFacts facts, double share) => Percentile.Of([.. facts.Done.Select(t => (t.DoneUtc!.Value - t.EnteredUtc).TotalHours)], share);

    private static double SquareMetres(long um2) => um2 / 1e12;

    private static double Hours(double seconds) => seconds / 3600;
}

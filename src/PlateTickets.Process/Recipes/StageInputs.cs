namespace PlateTickets.Process.Recipes;

/// <summary>One radiometer reading of a frame's lamps: UV-A irradiance in mW/cm2 at an instant in UTC.</summary>
public sealed record LampReading(double IrradianceMwPerCm2, DateTime ReadAtUtc);

/// <summary>What the arithmetic needs to know of a machine. A value that the machine does not have is null.</summary>
public sealed record EquipmentFacts
{
    /// <summary>The name on the machine, such as "Frame 2".</summary>
    public required string Name { get; init; }

    /// <summary>Newest reading of the back exposure lamps.</summary>
    public LampReading? BackLamps { get; init; }

    /// <summary>Newest reading of the face exposure lamps.</summary>
    public LampReading? FaceLamps { get; init; }

    /// <summary>How old a reading may be before it is flagged; hours.</summary>
    public double ReadingValidHours { get; init; } = 7 * 24;

    /// <summary>Drum speed in revolutions per minute.</summary>
    public double? DrumRpm { get; init; }

    /// <summary>Laser channels: image lines written in one revolution.</summary>
    public int? LaserChannels { get; init; }

    /// <summary>Length of a line processor's wet part in mm.</summary>
    public double? LineLengthMm { get; init; }

    /// <summary>Gap in mm between the end of one sheet and the start of the next in a line.</summary>
    public double? LineGapMm { get; init; }
}

/// <summary>What the arithmetic needs to know of a sheet: mm, all above 0.</summary>
/// <param name="WidthMm">Size along the drum axis.</param>
/// <param name="LengthMm">Size around the drum, and the way through a line.</param>
/// <param name="AxialExtentMm">How far the laid-out plates reach along the drum axis: 0 up to the width.</param>
/// <param name="Plates">How many plates are cut out of it; 1 or more.</param>
public sealed record SheetFacts(double WidthMm, double LengthMm, double AxialExtentMm, int Plates = 1);

/// <summary>One setting to dial in, as the operator reads it: "Transport speed", "180 mm/min".</summary>
public sealed record Setting(string Name, string Value);

/// <summary>One number that a time was computed from, and where it comes from.</summary>
public sealed record StageInput(string Name, string Value, string From);

/// <summary>The time of one stage on one machine, with the settings and the line that explains it.</summary>
/// <param name="Station">The station.</param>
/// <param name="LoadSeconds">Attended load in s.</param>
/// <param name="RunSeconds">Unattended run in s.</param>
/// <param name="UnloadSeconds">Attended unload in s.</param>
/// <param name="OccupiesRunSeconds">
/// For how much of the run the machine cannot take the next sheet, in s: the whole run, except in a line,
/// where the next sheet may enter after (sheet length + gap) / speed.
/// </param>
/// <param name="RestAfterSeconds">Least wait in s before the next stage may start.</param>
/// <param name="Explanation">One line: the time, the formula with its numbers, and where they come from.</param>
/// <param name="Settings">What to dial in.</param>
/// <param name="Flags">What to be careful about, in sentences, such as a reading older than its limit; mostly empty.</param>
public sealed record StageTime(
    Station Station, double LoadSeconds, double RunSeconds, double UnloadSeconds, double OccupiesRunSeconds, double RestAfterSeconds,
    string Explanation, IReadOnlyList<Setting> Settings, IReadOnlyList<string> Flags)
{
    /// <summary>The formula in words and signs, such as "time = dose / irradiance".</summary>
    public string Formula { get; init; } = "";

    /// <summary>What went into the formula, with dates and sources.</summary>
    public IReadOnlyList<StageInput> Inputs { get; init; } = [];

    /// <summary>How long the sheet may lie before its next stage, in s; null for no limit.</summary>
    public double? LongestWaitAfterSeconds { get; init; }

    /// <summary>True where a person works through the whole run, as at the cutting table: it needs working time, and may end sooner.</summary>
    public bool RunIsAttended { get; init; }

    internal static StageTime Of(
        Station station, Handling handling, double run, string how, IReadOnlyList<Setting> settings,
        string formula, IReadOnlyList<StageInput> inputs,
        double? occupies = null, double rest = 0, IReadOnlyList<string>? flags = null) =>
        new(
            station,
            Guard.AtLeast(handling.LoadSeconds, 0, "The load time", "s"), run, Guard.AtLeast(handling.UnloadSeconds, 0, "The unload time", "s"),
            occupies ?? run, rest, $"{Durations.ForPeople(run)} = {how}", WithWait(settings, handling), flags ?? [])
        {
            Formula = formula,
            Inputs = inputs,
            LongestWaitAfterSeconds = handling.LongestWaitAfterSeconds,
        };

    private static IReadOnlyList<Setting> WithWait(IReadOnlyList<Setting> settings, Handling handling) =>
        handling.LongestWaitAfterSeconds is { } wait
            ? [.. settings, new Setting("Next stage within", Durations.ForPeople(Guard.Above(wait, 0, "The longest wait", "s")))]
            : settings;

    /// <summary>Load + run + unload in s.</summary>
    public double TotalSeconds => LoadSeconds + RunSeconds + UnloadSeconds;
}

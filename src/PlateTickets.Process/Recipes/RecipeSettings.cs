namespace PlateTickets.Process.Recipes;

/// <summary>Attended work at one station: a person loads the sheet before the run and takes it out after it. Seconds, 0 or more.</summary>
/// <param name="LoadSeconds">Before the run.</param>
/// <param name="UnloadSeconds">After the run.</param>
/// <param name="LongestWaitAfterSeconds">How long the sheet may lie before its next stage; null for no limit.</param>
public sealed record Handling(double LoadSeconds, double UnloadSeconds, double? LongestWaitAfterSeconds = null);

/// <summary>
/// Back exposure: a time that gives the wanted floor at a known irradiance. It is scaled with the lamp
/// so that the dose stays the same (reciprocity: dose = irradiance x time).
/// </summary>
/// <param name="Handling">Attended load and unload.</param>
/// <param name="SecondsAtReference">Exposure time in s at the reference irradiance, above 0.</param>
/// <param name="ReferenceIrradianceMwPerCm2">UV-A irradiance in mW/cm2 at which that time was found, above 0.</param>
/// <param name="FloorMm">The floor in mm that this time gives.</param>
public sealed record BackExposureSettings(Handling Handling, double SecondsAtReference, double ReferenceIrradianceMwPerCm2, double FloorMm);

/// <summary>Imaging on a drum: only the axial extent costs time.</summary>
/// <param name="Handling">Attended load and unload.</param>
/// <param name="ResolutionPpi">Resolution in pixels per inch, above 0.</param>
/// <param name="LaserPowerPercent">Share of full laser power in percent, above 0 to 100.</param>
public sealed record ImagingSettings(Handling Handling, double ResolutionPpi, double LaserPowerPercent);

/// <summary>Face exposure: time = dose / irradiance.</summary>
/// <param name="Handling">Attended load and unload.</param>
/// <param name="DoseMjPerCm2">UV-A dose in mJ/cm2, above 0.</param>
public sealed record FaceExposureSettings(Handling Handling, double DoseMjPerCm2);

/// <summary>Washout in a line (by speed) or in a batch washer (fixed time): exactly one of the two is given.</summary>
/// <param name="Handling">Attended load and unload.</param>
/// <param name="Process">Solvent, water or thermal.</param>
/// <param name="TransportMmPerMin">Transport speed of a line in mm/min; null for a batch washer.</param>
/// <param name="BatchSeconds">Fixed time of a batch washer in s; null for a line.</param>
/// <param name="BrushHeightMm">Brush height in mm; null where there are no brushes.</param>
/// <param name="TemperatureC">Bath or drum temperature in degrees Celsius.</param>
public sealed record WashoutSettings(
    Handling Handling, WashoutProcess Process, double? TransportMmPerMin, double? BatchSeconds, double? BrushHeightMm, double TemperatureC);

/// <summary>Drying in a drawer, then a rest before post-finish. Longer is allowed up to a limit, shorter is not.</summary>
/// <param name="Handling">Attended load and unload.</param>
/// <param name="Seconds">Drying time in s.</param>
/// <param name="LongestSeconds">The longest that the sheet may stay in the drawer, in s.</param>
/// <param name="TemperatureC">Air temperature in degrees Celsius.</param>
/// <param name="RestSeconds">Rest in s outside the drawer before post-finish; 0 or more.</param>
public sealed record DryingSettings(Handling Handling, double Seconds, double LongestSeconds, double TemperatureC, double RestSeconds);

/// <summary>Post exposure (UV-A) and light finishing (UV-C), at once or one after the other.</summary>
/// <param name="Handling">Attended load and unload.</param>
/// <param name="PostExposureSeconds">UV-A time in s.</param>
/// <param name="LightFinishingSeconds">UV-C time in s.</param>
/// <param name="AtOnce">True when both lamps burn together: the longer time counts; else the sum.</param>
public sealed record PostFinishSettings(Handling Handling, double PostExposureSeconds, double LightFinishingSeconds, bool AtOnce);

/// <summary>Cutting the sheet into its plates, and their inspection: work by hand from end to end.</summary>
/// <param name="Handling">Laying the sheet on the table, putting the plates away.</param>
/// <param name="SecondsPerPlate">Cutting out and looking at one plate; s, 0 or more.</param>
public sealed record CuttingSettings(Handling Handling, double SecondsPerPlate);

/// <summary>The settings of one material for each station: what a recipe revision holds.</summary>
/// <remarks>Drying is null for a thermal process, which leaves the sheet dry. Cutting is null where sheets leave the room whole.</remarks>
public sealed record RecipeSettings(
    BackExposureSettings BackExposure,
    ImagingSettings Imaging,
    FaceExposureSettings FaceExposure,
    WashoutSettings Washout,
    DryingSettings? Drying,
    PostFinishSettings PostFinish,
    CuttingSettings? Cutting = null)
{
    /// <summary>The points that must be ticked before a stage starts, of all its stations together.</summary>
    public CheckPoint MustTick { get; init; }

    /// <summary>How far readings may lie from their targets.</summary>
    public ReadingLimits Limits { get; init; } = new();

    /// <summary>Load, unload and longest wait of a station; null where the recipe has no such stage.</summary>
    public Handling? HandlingAt(Station station) => station switch
    {
        Station.BackExposure => BackExposure.Handling,
        Station.Imaging => Imaging.Handling,
        Station.FaceExposure => FaceExposure.Handling,
        Station.Washout => Washout.Handling,
        Station.Drying => Drying?.Handling,
        Station.PostFinish => PostFinish.Handling,
        Station.Cutting => Cutting?.Handling,
        _ => null,
    };

    /// <summary>The stations that a sheet of this recipe passes, in order.</summary>
    public IEnumerable<Station> Route => Stations.InOrder.Where(s => HandlingAt(s) is not null);
}

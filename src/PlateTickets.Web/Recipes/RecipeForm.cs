using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Process.Units;

namespace PlateTickets.Web.Recipes;

/// <summary>
/// A recipe's settings while the lead types. Times in the units that the room speaks: seconds for handling and exposure, minutes
/// elsewhere. Lengths and speeds are text with their unit.
/// </summary>
internal sealed class RecipeForm
{
    private readonly RecipeSettings _from;
    private readonly LengthSystem _units;
    private readonly (string Floor, string Speed, string Brush) _shown;

    public RecipeForm(RecipeSettings from, LengthSystem units)
    {
        _from = from;
        _units = units;
        _shown = (
            units.Show(from.BackExposure.FloorMm, 3),
            from.Washout.TransportMmPerMin is { } speed ? units.Speed(speed) : "",
            from.Washout.BrushHeightMm is { } brush ? units.Show(brush, 2) : "");
        (Floor, WashSpeed, Brush) = _shown;
        BackSeconds = from.BackExposure.SecondsAtReference;
        BackWaitHours = from.BackExposure.Handling.LongestWaitAfterSeconds / 3600;
        WashWaitMinutes = from.Washout.Handling.LongestWaitAfterSeconds / 60;
        BackReference = from.BackExposure.ReferenceIrradianceMwPerCm2;
        Ppi = from.Imaging.ResolutionPpi;
        LaserPercent = from.Imaging.LaserPowerPercent;
        FaceDose = from.FaceExposure.DoseMjPerCm2;
        WashMinutes = from.Washout.BatchSeconds / 60;
        WashC = from.Washout.TemperatureC;
        DryMinutes = (from.Drying?.Seconds ?? 0) / 60;
        DryLongestMinutes = (from.Drying?.LongestSeconds ?? 0) / 60;
        DryC = from.Drying?.TemperatureC ?? 0;
        RestMinutes = (from.Drying?.RestSeconds ?? 0) / 60;
        PostMinutes = from.PostFinish.PostExposureSeconds / 60;
        LightMinutes = from.PostFinish.LightFinishingSeconds / 60;
        AtOnce = from.PostFinish.AtOnce;
        CutSeconds = from.Cutting?.SecondsPerPlate ?? 0;
        MustTick = from.MustTick;
        _shownLimits = (units.Show(from.Limits.FloorMm, 3), units.Show(from.Limits.ThicknessMm, 3), units.Show(from.Limits.ReliefMm, 3));
        (FloorLimit, ThicknessLimit, ReliefLimit) = _shownLimits;
        LampsPercent = from.Limits.LampsPercent;
    }

    private readonly (string Floor, string Thickness, string Relief) _shownLimits;

    /// <summary>The points that must be ticked before a stage starts.</summary>
    public CheckPoint MustTick { get; private set; }

    public string FloorLimit { get; set; }

    public string ThicknessLimit { get; set; }

    public string ReliefLimit { get; set; }

    /// <summary>The least irradiance in percent of the reference.</summary>
    public double LampsPercent { get; set; }

    /// <summary>The stations with their check lists.</summary>
    public IEnumerable<(Station Station, IReadOnlyList<CheckPoint> Points)> Checks => _from.Route.Select(s => (s, CheckLists.For(s, _from)));

    public void Tick(CheckPoint point, bool must) => MustTick = must ? MustTick | point : MustTick & ~point;

    public double BackSeconds { get; set; }

    public double BackReference { get; set; }

    /// <summary>How long a back-exposed sheet may lie; null for no limit.</summary>
    public double? BackWaitHours { get; set; }

    /// <summary>Within what time a washed sheet must go on; null for no limit.</summary>
    public double? WashWaitMinutes { get; set; }

    public string Floor { get; set; }

    public double Ppi { get; set; }

    public double LaserPercent { get; set; }

    public double FaceDose { get; set; }

    public string WashSpeed { get; set; }

    public double? WashMinutes { get; set; }

    public string Brush { get; set; }

    public double WashC { get; set; }

    public bool Dries => _from.Drying is not null;

    public bool IsLine => _from.Washout.TransportMmPerMin is not null;

    public double DryMinutes { get; set; }

    public double DryLongestMinutes { get; set; }

    public double DryC { get; set; }

    public double RestMinutes { get; set; }

    public double PostMinutes { get; set; }

    public double LightMinutes { get; set; }

    public bool AtOnce { get; set; }

    public bool Cuts => _from.Cutting is not null;

    public double CutSeconds { get; set; }

    /// <exception cref="PlateRoomException">A length or speed cannot be read.</exception>
    public RecipeSettings ToSettings() => new(
        _from.BackExposure with
        {
            Handling = _from.BackExposure.Handling with { LongestWaitAfterSeconds = BackWaitHours * 3600 },
            SecondsAtReference = BackSeconds,
            ReferenceIrradianceMwPerCm2 = BackReference,
            // A figure that nobody touched keeps what was rounded away to show it.
            FloorMm = Floor == _shown.Floor ? _from.BackExposure.FloorMm : LengthText.Millimetres(Floor, "The floor", _units),
        },
        _from.Imaging with { ResolutionPpi = Ppi, LaserPowerPercent = LaserPercent },
        _from.FaceExposure with { DoseMjPerCm2 = FaceDose },
        _from.Washout with
        {
            Handling = _from.Washout.Handling with { LongestWaitAfterSeconds = WashWaitMinutes * 60 },
            TransportMmPerMin = WashSpeed == _shown.Speed ? _from.Washout.TransportMmPerMin : LengthText.MillimetresPerMinute(WashSpeed, "The transport speed", _units),
            BatchSeconds = WashMinutes * 60,
            BrushHeightMm = Brush == _shown.Brush ? _from.Washout.BrushHeightMm : string.IsNullOrWhiteSpace(Brush) ? null : LengthText.Millimetres(Brush, "The brush height", _units),
            TemperatureC = WashC,
        },
        _from.Drying is { } drying
            ? drying with { Seconds = DryMinutes * 60, LongestSeconds = DryLongestMinutes * 60, TemperatureC = DryC, RestSeconds = RestMinutes * 60 }
            : null,
        _from.PostFinish with { PostExposureSeconds = PostMinutes * 60, LightFinishingSeconds = LightMinutes * 60, AtOnce = AtOnce },
        _from.Cutting is { } cutting ? cutting with { SecondsPerPlate = CutSeconds } : null)
    {
        MustTick = MustTick,
        Limits = new(
            Limit(FloorLimit, _shownLimits.Floor, _from.Limits.FloorMm, "The floor's limit"),
            Limit(ThicknessLimit, _shownLimits.Thickness, _from.Limits.ThicknessMm, "The thickness's limit"),
            Limit(ReliefLimit, _shownLimits.Relief, _from.Limits.ReliefMm, "The relief's limit"),
            LampsPercent),
    };

    private double Limit(string typed, string shown, double from, string what) => typed == shown ? from : LengthText.Millimetres(typed, what, _units);
}

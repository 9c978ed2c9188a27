using PlateTickets.Process.Recipes;

namespace PlateTickets.Web.Recipes;

/// <summary>A recipe's settings while the lead types. Times in the units that the room speaks: seconds for handling and exposure, minutes elsewhere.</summary>
internal sealed class RecipeForm
{
    private readonly RecipeSettings _from;

    public RecipeForm(RecipeSettings from)
    {
        _from = from;
        BackSeconds = from.BackExposure.SecondsAtReference;
        BackWaitHours = from.BackExposure.Handling.LongestWaitAfterSeconds / 3600;
        WashWaitMinutes = from.Washout.Handling.LongestWaitAfterSeconds / 60;
        BackReference = from.BackExposure.ReferenceIrradianceMwPerCm2;
        FloorMm = from.BackExposure.FloorMm;
        Ppi = from.Imaging.ResolutionPpi;
        LaserPercent = from.Imaging.LaserPowerPercent;
        FaceDose = from.FaceExposure.DoseMjPerCm2;
        WashSpeed = from.Washout.TransportMmPerMin;
        WashMinutes = from.Washout.BatchSeconds / 60;
        BrushMm = from.Washout.BrushHeightMm;
        WashC = from.Washout.TemperatureC;
        DryMinutes = (from.Drying?.Seconds ?? 0) / 60;
        DryLongestMinutes = (from.Drying?.LongestSeconds ?? 0) / 60;
        DryC = from.Drying?.TemperatureC ?? 0;
        RestMinutes = (from.Drying?.RestSeconds ?? 0) / 60;
        PostMinutes = from.PostFinish.PostExposureSeconds / 60;
        LightMinutes = from.PostFinish.LightFinishingSeconds / 60;
        AtOnce = from.PostFinish.AtOnce;
    }

    public double BackSeconds { get; set; }

    public double BackReference { get; set; }

    /// <summary>How long a back-exposed sheet may lie; null for no limit.</summary>
    public double? BackWaitHours { get; set; }

    /// <summary>Within what time a washed sheet must go on; null for no limit.</summary>
    public double? WashWaitMinutes { get; set; }

    public double FloorMm { get; set; }

    public double Ppi { get; set; }

    public double LaserPercent { get; set; }

    public double FaceDose { get; set; }

    public double? WashSpeed { get; set; }

    public double? WashMinutes { get; set; }

    public double? BrushMm { get; set; }

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

    public RecipeSettings ToSettings() => new(
        _from.BackExposure with
        {
            Handling = _from.BackExposure.Handling with { LongestWaitAfterSeconds = BackWaitHours * 3600 },
            SecondsAtReference = BackSeconds,
            ReferenceIrradianceMwPerCm2 = BackReference,
            FloorMm = FloorMm,
        },
        _from.Imaging with { ResolutionPpi = Ppi, LaserPowerPercent = LaserPercent },
        _from.FaceExposure with { DoseMjPerCm2 = FaceDose },
        _from.Washout with
        {
            Handling = _from.Washout.Handling with { LongestWaitAfterSeconds = WashWaitMinutes * 60 },
            TransportMmPerMin = WashSpeed,
            BatchSeconds = WashMinutes * 60,
            BrushHeightMm = BrushMm,
            TemperatureC = WashC,
        },
        _from.Drying is { } drying
            ? drying with { Seconds = DryMinutes * 60, LongestSeconds = DryLongestMinutes * 60, TemperatureC = DryC, RestSeconds = RestMinutes * 60 }
            : null,
        _from.PostFinish with { PostExposureSeconds = PostMinutes * 60, LightFinishingSeconds = LightMinutes * 60, AtOnce = AtOnce });
}

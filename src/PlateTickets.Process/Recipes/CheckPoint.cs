namespace PlateTickets.Process.Recipes;

/// <summary>One point of a station's check list. Several of them make what a recipe asks to be ticked before the start. Common practice, from no source.</summary>
[Flags]
public enum CheckPoint
{
    None = 0,
    BackSideUp = 1 << 0,
    GlassClean = 1 << 1,
    CoverFilmOff = 1 << 2,
    PlateSquare = 1 << 3,
    ClampsClosed = 1 << 4,
    VacuumUp = 1 << 5,
    HeadAtStart = 1 << 6,
    MaskWhole = 1 << 7,
    PlainPunch = 1 << 8,
    PinBarLocked = 1 << 9,
    BrushesSet = 1 << 10,
    BathAtTemperature = 1 << 11,
    SurfaceWiped = 1 << 12,
    DrawerFlat = 1 << 13,
    NotTacky = 1 << 14,
    LayoutAtHand = 1 << 15,
}

/// <summary>The check list of each station, in the order in which the points are done.</summary>
public static class CheckLists
{
    /// <summary>Every point that there is.</summary>
    public const CheckPoint All = (CheckPoint)((1 << 16) - 1);

    /// <summary>The points of a station for a washout process.</summary>
    /// <param name="station">The station.</param>
    /// <param name="process">How the material is washed out.</param>
    /// <param name="byLine">True when the recipe washes in a line, where the sheet hangs on a pin bar.</param>
    public static IReadOnlyList<CheckPoint> For(Station station, WashoutProcess process, bool byLine) => station switch
    {
        Station.BackExposure => [CheckPoint.BackSideUp, CheckPoint.GlassClean],
        Station.Imaging => [CheckPoint.CoverFilmOff, CheckPoint.PlateSquare, CheckPoint.ClampsClosed, CheckPoint.VacuumUp, CheckPoint.HeadAtStart],
        Station.FaceExposure => [CheckPoint.MaskWhole, CheckPoint.GlassClean],
        Station.Washout when byLine => [CheckPoint.PlainPunch, CheckPoint.PinBarLocked, CheckPoint.BrushesSet, CheckPoint.BathAtTemperature],
        Station.Washout when process == WashoutProcess.Thermal => [CheckPoint.ClampsClosed, CheckPoint.BathAtTemperature],
        Station.Washout => [CheckPoint.ClampsClosed, CheckPoint.BrushesSet, CheckPoint.BathAtTemperature],
        Station.Drying => [CheckPoint.SurfaceWiped, CheckPoint.DrawerFlat],
        Station.PostFinish => [CheckPoint.SurfaceWiped],
        Station.Cutting => [CheckPoint.NotTacky, CheckPoint.LayoutAtHand],
        _ => throw new ArgumentOutOfRangeException(nameof(station), station, "There is no such station."),
    };

    /// <summary>The points of a station for a recipe.</summary>
    public static IReadOnlyList<CheckPoint> For(Station station, RecipeSettings recipe) =>
        For(station, recipe.Washout.Process, recipe.Washout.TransportMmPerMin is not null);

    /// <summary>Which of a station's points the recipe wants ticked before the start.</summary>
    public static CheckPoint MustTick(Station station, RecipeSettings recipe) =>
        For(station, recipe).Where(p => recipe.MustTick.HasFlag(p)).Aggregate(CheckPoint.None, (sum, p) => sum | p);

    /// <summary>The point in a few words, as it stands on the list.</summary>
    public static string Title(this CheckPoint point) => point switch
    {
        CheckPoint.BackSideUp => "Base side to the lamps",
        CheckPoint.GlassClean => "Glass clean and dry",
        CheckPoint.CoverFilmOff => "Cover film off",
        CheckPoint.PlateSquare => "Plate square on the drum",
        CheckPoint.ClampsClosed => "Clamps closed",
        CheckPoint.VacuumUp => "Vacuum up to pressure",
        CheckPoint.HeadAtStart => "Imaging head at its start position",
        CheckPoint.MaskWhole => "No scratch in the mask",
        CheckPoint.PlainPunch => "Plain punch along the edge",
        CheckPoint.PinBarLocked => "On the pin bar, locked",
        CheckPoint.BrushesSet => "Brush height set",
        CheckPoint.BathAtTemperature => "At temperature",
        CheckPoint.SurfaceWiped => "Surface wiped, no drops",
        CheckPoint.DrawerFlat => "Flat in the drawer, base down",
        CheckPoint.NotTacky => "Surface not tacky",
        CheckPoint.LayoutAtHand => "Traveler with the layout at hand",
        _ => throw new ArgumentOutOfRangeException(nameof(point), point, "This is no single point of a check list."),
    };
}

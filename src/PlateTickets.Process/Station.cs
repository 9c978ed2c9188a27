namespace PlateTickets.Process;

/// <summary>The stations that turn a raw sheet into plates, in the order of the trade (common practice).</summary>
public enum Station
{
    BackExposure = 1,
    Imaging = 2,
    FaceExposure = 3,
    Washout = 4,
    Drying = 5,
    PostFinish = 6,

    /// <summary>Cutting the sheet into its plates and looking at each: attended from end to end.</summary>
    Cutting = 7,
}

/// <summary>How the unexposed photopolymer leaves the sheet.</summary>
public enum WashoutProcess
{
    /// <summary>Organic solvent; the sheet swells and must be dried.</summary>
    Solvent = 1,

    /// <summary>Water with a detergent; a short drying follows.</summary>
    Water = 2,

    /// <summary>Heat and a blotting fabric; the sheet leaves dry, there is no drying stage.</summary>
    Thermal = 3,
}

/// <summary>Names of the stations as the trade writes them.</summary>
public static class Stations
{
    /// <summary>All of them, in order.</summary>
    public static IReadOnlyList<Station> InOrder { get; } =
        [Station.BackExposure, Station.Imaging, Station.FaceExposure, Station.Washout, Station.Drying, Station.PostFinish, Station.Cutting];

    /// <summary>The name on screen and paper, such as "Back exposure".</summary>
    public static string Title(this Station station) => station switch
    {
        Station.BackExposure => "Back exposure",
        Station.Imaging => "Imaging",
        Station.FaceExposure => "Face exposure",
        Station.Washout => "Washout",
        Station.Drying => "Drying",
        Station.PostFinish => "Post-finish",
        Station.Cutting => "Cutting",
        _ => throw new ArgumentOutOfRangeException(nameof(station), station, "There is no such station."),
    };
}

namespace PlateTickets.Tickets.Quality;

/// <summary>What can be wrong with a plate, by the trade's names. The first eight are named by PrintWiki and the FTA, the others are common practice from memory.</summary>
public enum PlateDefect
{
    FloorPrints = 1,
    LeaningDots = 2,
    MissingDots = 3,
    Scum = 4,
    UnevenFloor = 5,
    Swelling = 6,
    Tack = 7,
    Pinholes = 8,
    Cupping = 9,
    Waviness = 10,
    Scratch = 11,
    Kink = 12,
    Stain = 13,
    MaskResidue = 14,
    Cracks = 15,
    Curl = 16,

    /// <summary>Cut or handled wrongly.</summary>
    CutWrong = 17,

    /// <summary>The image itself: wrong file, wrong size, wrong distortion.</summary>
    WrongImage = 18,
    Other = 19,
}

public static class PlateDefects
{
    public static IReadOnlyList<PlateDefect> All { get; } = Enum.GetValues<PlateDefect>();

    public static string Title(this PlateDefect defect) => defect switch
    {
        PlateDefect.FloorPrints => "floor prints",
        PlateDefect.LeaningDots => "leaning or thin dots",
        PlateDefect.MissingDots => "missing dots or type",
        PlateDefect.Scum => "scum",
        PlateDefect.UnevenFloor => "uneven floor",
        PlateDefect.Swelling => "swelling",
        PlateDefect.Tack => "tack",
        PlateDefect.Pinholes => "pinholes",
        PlateDefect.Cupping => "cupping",
        PlateDefect.Waviness => "waviness",
        PlateDefect.Scratch => "scratch",
        PlateDefect.Kink => "kink",
        PlateDefect.Stain => "stain",
        PlateDefect.MaskResidue => "mask residue",
        PlateDefect.Cracks => "cracks",
        PlateDefect.Curl => "curl",
        PlateDefect.CutWrong => "cut wrongly",
        PlateDefect.WrongImage => "wrong image",
        PlateDefect.Other => "something else",
        _ => throw new ArgumentOutOfRangeException(nameof(defect), defect, "There is no such defect."),
    };
}

namespace PlateTickets.Travelers;

/// <summary>Paper of a traveler.</summary>
public enum TravelerPaper
{
    /// <summary>ISO 216 A4, 210 x 297 mm.</summary>
    A4 = 1,

    /// <summary>US Letter, 8.5 x 11 in.</summary>
    Letter = 2,
}

/// <summary>Everything that one sheet's traveler says, ready to print: texts are final, times are already in the site's zone.</summary>
public sealed record TravelerContent
{
    /// <summary>The sheet's number with its check character, without spaces, such as "S2K3M9Q46": what the bars hold.</summary>
    public required string SheetNumber { get; init; }

    /// <summary>What the QR code holds: the number again or, where the room has an address, that of the sheet's page.</summary>
    public string Qr { get => field ?? SheetNumber; init; }

    /// <summary>The same number grouped for people: "S2K3 M9Q4 6".</summary>
    public required string SheetNumberForPeople { get; init; }

    /// <summary>The room's name.</summary>
    public required string SiteName { get; init; }

    /// <summary>Material with thickness, such as "Aster 170 - 1.70 mm - solvent".</summary>
    public required string Material { get; init; }

    /// <summary>Sheet size, such as "900 x 1200 mm".</summary>
    public required string SheetSize { get; init; }

    /// <summary>Recipe revision, such as "Aster 170, revision 3".</summary>
    public required string Recipe { get; init; }

    /// <summary>The earliest due time of its tickets, such as "Thu 26 Nov 2026, 14:00".</summary>
    public required string Due { get; init; }

    /// <summary>When this paper was printed, with the zone.</summary>
    public required string PrintedAt { get; init; }

    /// <summary>0 for the first print; above that a reprint mark is shown.</summary>
    public required int ReprintNumber { get; init; }

    /// <summary>Which sheet of how many of the set, such as "Sheet 1 of 2 of ticket T2K3 M9Q4 6"; empty when it is the only one.</summary>
    public required string SetPosition { get; init; }

    public required IReadOnlyList<TravelerTicket> Tickets { get; init; }

    public required TravelerLayout Layout { get; init; }

    /// <summary>Where the raw sheet is taken from, and the remnant to cut off it first; empty where stock is not counted.</summary>
    public string Stock { get; init; } = "";

    /// <summary>The cuts that part the plates, in their order; empty when there are none.</summary>
    public string Cuts { get; init; } = "";

    public required IReadOnlyList<TravelerStage> Stages { get; init; }

    /// <summary>Closing lines for the whole paper, such as to follow local codes and the maker's instructions.</summary>
    public required IReadOnlyList<string> ClosingCautions { get; init; }

    /// <summary>Things that a person must know before starting, such as a lamp reading older than its limit; mostly empty.</summary>
    public required IReadOnlyList<string> Flags { get; init; }
}

/// <summary>A ticket with plates on this sheet.</summary>
public sealed record TravelerTicket(string NumberForPeople, string Customer, string Title, string Press, string Due);

/// <summary>The layout drawing: mm, origin at the sheet's corner, x along the drum axis, y around the drum.</summary>
/// <param name="WidthText">The width in words and the reader's unit, below the drawing.</param>
/// <param name="LengthText">The length in words, beside it.</param>
public sealed record TravelerLayout(double WidthMm, double LengthMm, string WidthText, string LengthText, IReadOnlyList<TravelerPlate> Plates);

/// <summary>A plate on the layout. <paramref name="Mark"/> is its short number on the drawing ("1", "2"); the list below the drawing says the rest.</summary>
/// <param name="SwatchRgb">The ink's colour as "#RRGGBB" for a small swatch, or null for an ink without a known colour. The name is always printed too.</param>
public sealed record TravelerPlate(
    string Mark, string Colour, string? SwatchRgb, string TicketNumberForPeople, string Size, bool Rotated, double XMm, double YMm, double WidthMm, double LengthMm);

/// <summary>One station's row.</summary>
/// <param name="Title">"Back exposure".</param>
/// <param name="Equipment">The planned machine, such as "Frame 2".</param>
/// <param name="Settings">Name and value pairs to dial in.</param>
/// <param name="Time">The computed run time, such as "12 min 40 s".</param>
/// <param name="Explanation">The one line that explains it.</param>
/// <param name="Planned">Planned start and finish, such as "Thu 08:10 - 08:24".</param>
/// <param name="DueBy">Latest finish that keeps the due time.</param>
/// <param name="ReadingName">The reading to write down at this station, such as "Floor, mm"; empty where there is none.</param>
/// <param name="Cautions">Cautions in words, each with its ISO 7010 code.</param>
/// <param name="Done">When it was finished, if it was: a reprint of a sheet on its way shows it.</param>
public sealed record TravelerStage(
    string Title, string Equipment, IReadOnlyList<(string Name, string Value)> Settings, string Time, string Explanation,
    string Planned, string DueBy, string ReadingName, IReadOnlyList<string> Cautions, string? Done);

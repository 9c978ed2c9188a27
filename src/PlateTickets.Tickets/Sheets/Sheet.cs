using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Recipes;

namespace PlateTickets.Tickets.Sheets;

public enum SheetState
{
    /// <summary>Between two stages, or before the first.</summary>
    Waiting = 1,

    /// <summary>At a station.</summary>
    Running = 2,

    /// <summary>Set aside with a reason; no stage may start.</summary>
    OnHold = 3,

    Done = 4,

    Cancelled = 5,
}

/// <summary>
/// A raw plate sheet that carries plates: the thing that moves and is scanned. State and current station are a
/// projection of the scans, changed in the scan's own transaction. Lengths in micrometres.
/// </summary>
public sealed class Sheet : IVersioned, IAudited
{
    public int Id { get; set; }

    public required string Number { get; set; }

    public int MaterialId { get; set; }

    public Material? Material { get; set; }

    public int RecipeRevisionId { get; set; }

    public RecipeRevision? RecipeRevision { get; set; }

    public int WidthUm { get; set; }

    public int LengthUm { get; set; }

    /// <summary>The lot that it comes from; empty where lots are not counted.</summary>
    public string Lot { get; set; } = "";

    public int? StockLotId { get; set; }

    /// <summary>The mark of the remnant that it was made of; empty for a full sheet.</summary>
    public string RemnantMark { get; set; } = "";

    /// <summary>The size before a remnant was cut off it; 0 for sheets made before that was kept.</summary>
    public int FromWidthUm { get; set; }

    public int FromLengthUm { get; set; }

    /// <summary>The layout that it was released with; null for a sheet made with its order.</summary>
    public int? LayoutId { get; set; }

    /// <summary>How far the plates reach along the drum axis.</summary>
    public int AxialExtentUm { get; set; }

    /// <summary>How many plates lie on it.</summary>
    public int PlateCount { get; set; }

    [NotAudited]
    public SheetState State { get; set; }

    /// <summary>The station that it is at, or waits for; null when it is done.</summary>
    [NotAudited]
    public Station? CurrentStation { get; set; }

    public string HoldReason { get; set; } = "";

    public DateTime MadeUtc { get; set; }

    [NotAudited]
    public DateTime? DoneUtc { get; set; }

    /// <summary>How often its traveler was printed.</summary>
    public int Prints { get; set; }

    public int Version { get; set; }

    public List<Placement> Placements { get; set; } = [];

    public List<Stage> Stages { get; set; } = [];

    public string AuditKey => Number;
}

/// <summary>Where a plate lies on its sheet: micrometres, x along the drum axis, y around the drum.</summary>
public sealed class Placement
{
    public int Id { get; set; }

    public int SheetId { get; set; }

    public Sheet? Sheet { get; set; }

    public int PlateId { get; set; }

    public Plate? Plate { get; set; }

    /// <summary>Its number on the layout drawing: 1, 2, 3 ...</summary>
    public int Mark { get; set; }

    public int XUm { get; set; }

    public int YUm { get; set; }

    public int WidthUm { get; set; }

    public int LengthUm { get; set; }

    public bool Rotated { get; set; }
}

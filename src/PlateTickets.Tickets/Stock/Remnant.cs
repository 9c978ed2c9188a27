using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Stock;

/// <summary>An unexposed rest of a sheet, kept in the dark under its mark: micrometres.</summary>
public sealed class Remnant : IAudited, IVersioned
{
    public int Id { get; set; }

    public int MaterialId { get; set; }

    public int WidthUm { get; set; }

    public int LengthUm { get; set; }

    /// <summary>The lot of the sheet that it was cut from; empty where lots are not counted.</summary>
    public string Lot { get; set; } = "";

    public DateOnly? ExpiresOn { get; set; }

    public DateTime MadeUtc { get; set; }

    /// <summary>The sheet that it was cut from.</summary>
    public int FromSheetId { get; set; }

    /// <summary>The sheet that was made of it.</summary>
    public int? TakenBySheetId { get; set; }

    /// <summary>Why it is not there any more; empty while it is.</summary>
    public string GoneBecause { get; set; } = "";

    public int Version { get; set; }

    /// <summary>What is written on it.</summary>
    public string Mark => $"R{Id}";

    public string AuditKey => $"remnant {Mark}";

    public bool IsThere => TakenBySheetId is null && GoneBecause.Length == 0;
}

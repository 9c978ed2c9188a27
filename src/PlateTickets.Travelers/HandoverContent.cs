namespace PlateTickets.Travelers;

/// <summary>Everything that the paper of a handover says: texts are final, times are already in the site's zone.</summary>
public sealed record HandoverContent
{
    public required string SiteName { get; init; }

    /// <summary>The shift, such as "Early shift, Thu 26 Nov 2026, 06:00 – 14:00".</summary>
    public required string Title { get; init; }

    /// <summary>Who closed and who confirmed it, and when.</summary>
    public required string Signed { get; init; }

    /// <summary>What the person typed; lines are kept.</summary>
    public required string Notes { get; init; }

    /// <summary>What the next shift answered; empty for nothing.</summary>
    public required string Remark { get; init; }

    /// <summary>When the facts were read.</summary>
    public required string AsOf { get; init; }

    public required string PrintedAt { get; init; }

    public required IReadOnlyList<HandoverTable> Sections { get; init; }
}

/// <summary>One table of the paper.</summary>
/// <param name="Title">Its heading.</param>
/// <param name="Columns">Heads of the columns.</param>
/// <param name="Rows">Cells of each row, as many as there are columns.</param>
/// <param name="Nothing">What is printed when there is no row; the part is left out when this is empty too.</param>
/// <param name="More">What is left out; empty when nothing is.</param>
public sealed record HandoverTable(string Title, IReadOnlyList<string> Columns, IReadOnlyList<IReadOnlyList<string>> Rows, string Nothing, string More);

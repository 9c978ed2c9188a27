namespace PlateTickets.Tickets.Sites;

/// <summary>What a site tells the group of itself. One row for each site, written by the node that plans it.</summary>
public sealed class SiteStanding
{
    /// <summary>The site's key.</summary>
    public required string Site { get; set; }

    public required string Name { get; set; }

    /// <summary>Where its pages are.</summary>
    public required string Address { get; set; }

    /// <summary>Sheets that are not finished.</summary>
    public int OpenSheets { get; set; }

    /// <summary>Tickets with such sheets.</summary>
    public int OpenTickets { get; set; }

    /// <summary>Tickets that are planned to end after their due time.</summary>
    public int Late { get; set; }

    /// <summary>Tickets that may come late.</summary>
    public int AtRisk { get; set; }

    /// <summary>Machines that are marked down.</summary>
    public int Down { get; set; }

    /// <summary>When the last of its open sheets is finished by plan; null without any.</summary>
    public DateTime? LastFinishUtc { get; set; }

    /// <summary>When its plan was made; null before the first one.</summary>
    public DateTime? PlannedUtc { get; set; }

    /// <summary>When it told this.</summary>
    public DateTime ToldUtc { get; set; }
}

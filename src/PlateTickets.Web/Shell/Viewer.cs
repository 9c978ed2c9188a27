using PlateTickets.Process.Units;

namespace PlateTickets.Web.Shell;

/// <summary>The person in front of this page, as far as the pages must know: one for each circuit.</summary>
public sealed class Viewer
{
    /// <summary>Cookie of a person's own choice of units; without it the site's units count.</summary>
    public const string UnitsCookie = "plate-units";

    /// <summary>The person's own choice; null when the site's counts.</summary>
    public LengthSystem? Own { get; private set; }

    /// <summary>In which units lengths are shown.</summary>
    public LengthSystem Units { get; private set; }

    /// <summary>Takes the person's own choice, or the site's.</summary>
    public void Choose(string? cookie, LengthSystem site)
    {
        Own = Enum.TryParse<LengthSystem>(cookie, ignoreCase: true, out var own) && Enum.IsDefined(own) ? own : null;
        Units = Own ?? site;
    }
}

using PlateTickets.Process;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Shell;

/// <summary>The person in front of this page, as far as the pages must know: one for each circuit.</summary>
public sealed class Viewer
{
    /// <summary>Cookie of a person's own choice of units; without it the site's units count.</summary>
    public const string UnitsCookie = "plate-units";

    /// <summary>Who acts, as the audit trail and the scans keep it.</summary>
    public string Name { get; private set; } = "";

    /// <summary>What this person may do.</summary>
    public Right Rights { get; private set; }

    /// <summary>The person's own choice; null when the site's counts.</summary>
    public LengthSystem? Own { get; private set; }

    /// <summary>In which units lengths are shown.</summary>
    public LengthSystem Units { get; private set; }

    public bool Can(Right right) => (Rights & right) == right;

    /// <summary>Refuses what this person may not do: a button that should not have been there.</summary>
    public void Require(Right right)
    {
        if (!Can(right))
        {
            throw new PlateRoomException($"{(Name.Length > 0 ? Name : "Nobody signed in")} may not do this here: {right.Title()}. Ask a lead or a manager.");
        }
    }

    /// <summary>Takes who has signed in and what that person may do.</summary>
    public void SignedIn(string name, Right rights) => (Name, Rights) = (name, rights);

    /// <summary>Takes the person's own choice, or the site's.</summary>
    public void Choose(string? cookie, LengthSystem site)
    {
        Own = Enum.TryParse<LengthSystem>(cookie, ignoreCase: true, out var own) && Enum.IsDefined(own) ? own : null;
        Units = Own ?? site;
    }
}

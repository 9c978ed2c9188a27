using System.Text.RegularExpressions;
using PlateTickets.Process;

namespace PlateTickets.Tickets.Sites;

/// <summary>
/// Which of a group's plate rooms this is. Each has a schema of its own in one PostgreSQL database; the people of all of them lie in the schema
/// <see cref="People"/>.
/// </summary>
public sealed partial record SiteKey
{
    /// <summary>The schema of accounts, their roles at sites, the keys of cookies and what each site tells of itself.</summary>
    public const string People = "people";

    /// <summary>The only room of its database.</summary>
    public static readonly SiteKey Alone = new();

    private SiteKey() => Value = "";

    /// <param name="value">1 to 30 lower-case letters, digits and low lines; a letter first.</param>
    /// <exception cref="PlateRoomException">It is none, or the database needs the name itself.</exception>
    public SiteKey(string value)
    {
        if (!Form().IsMatch(value) || value is People or "public" or "information_schema" || value.StartsWith("pg_", StringComparison.Ordinal))
        {
            throw new PlateRoomException($"“{value}” cannot be the key of a site: take 1 to 30 lower-case letters, digits and low lines with a letter first, such as north_works; not “{People}”, “public” or pg_….");
        }

        Value = value;
    }

    /// <summary>The key, which is the name of its schema; empty when the room has its database for itself.</summary>
    public string Value { get; }

    public bool IsAlone => Value.Length == 0;

    public override string ToString() => Value;

    [GeneratedRegex("^[a-z][a-z0-9_]{0,29}$", RegexOptions.CultureInvariant)]
    private static partial Regex Form();
}

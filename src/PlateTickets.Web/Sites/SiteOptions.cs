using PlateTickets.Process;
using PlateTickets.Tickets.Sites;
using PlateTickets.Web.Startup;

namespace PlateTickets.Web.Sites;

/// <summary>Settings "Site" and "Sites": which of a group's plate rooms this program serves.</summary>
internal static class SiteOptions
{
    /// <summary>The key of the site that one application serves.</summary>
    public const string Key = "Site:Key";

    /// <summary>All sites, each with its own values of any setting: Sites:north:Urls, Sites:north:Room:TimeZone.</summary>
    public const string Section = "Sites";

    /// <summary>Keys of the sites that this node serves, with commas between; all when empty.</summary>
    public const string Here = "Site:Here";

    /// <summary>Sites share a database, which SQLite's file cannot be.</summary>
    /// <exception cref="PlateRoomException">It is none of PostgreSQL.</exception>
    public static void RequireServer(IConfiguration settings)
    {
        if (!string.Equals(settings["Database:Provider"], nameof(DatabaseKind.PostgreSql), StringComparison.OrdinalIgnoreCase))
        {
            throw new PlateRoomException($"Sites need a PostgreSQL database: set Database:Provider to {nameof(DatabaseKind.PostgreSql)}, or take {Key} and the settings under “{Section}” away.");
        }
    }

    public static SiteKey Of(IConfiguration settings) => settings[Key] is { Length: > 0 } key ? new SiteKey(key) : SiteKey.Alone;

    /// <summary>The sites to serve; none where the settings speak of one room only.</summary>
    /// <exception cref="PlateRoomException">A key that cannot be one, a site without an address of its own, or one that is to be served here and is not among them.</exception>
    public static IReadOnlyList<SiteKey> Served(IConfiguration settings)
    {
        if (settings[Key] is { Length: > 0 } || settings.GetSection(Section).GetChildren().ToList() is not { Count: > 0 } all)
        {
            return [];
        }

        var sites = all.Select(s => new SiteKey(s.Key)).ToList();
        var here = (settings[Here] ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (here.FirstOrDefault(k => sites.All(s => s.Value != k)) is { } unknown)
        {
            throw new PlateRoomException($"{Here} names the site “{unknown}”, which is not among {string.Join(", ", sites)}.");
        }

        RequireServer(settings);
        var served = sites.Where(s => here.Length == 0 || here.Contains(s.Value)).ToList();
        if (served.FirstOrDefault(s => string.IsNullOrEmpty(settings[$"{Section}:{s}:{WebHostDefaults.ServerUrlsKey}"])) is { } silent)
        {
            throw new PlateRoomException($"Say on which address the site {silent} is served: {Section}:{silent}:Urls, such as http://localhost:5081.");
        }

        return served;
    }

    /// <summary>Lays the site's own settings over those of all sites.</summary>
    public static void Choose(ConfigurationManager settings, SiteKey site) =>
        settings.AddInMemoryCollection([.. settings.GetSection($"{Section}:{site}").AsEnumerable(makePathsRelative: true).Where(s => s.Value is not null)]);
}

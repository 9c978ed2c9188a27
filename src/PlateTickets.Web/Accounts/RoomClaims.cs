using System.Globalization;
using System.Security.Claims;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Accounts;

/// <summary>What a cookie or an API key says about who asks.</summary>
internal static class RoomClaims
{
    /// <summary>The roles as a number of <see cref="Role"/>.</summary>
    public const string Roles = "room:roles";

    /// <summary>The roles at one site of a group, in addition: this, and the site's key.</summary>
    public const string RolesAt = "room:roles@";

    /// <summary>The roles at the site that is asked, in addition; in no cookie, for a cookie serves all sites.</summary>
    public const string RolesHere = "room:roles-here";

    /// <summary>The shared tablet on which a badge was scanned.</summary>
    public const string Tablet = "room:tablet";

    /// <summary>When the session ends, in seconds since 1970.</summary>
    public const string Ends = "room:ends";

    public static Role RolesOf(ClaimsPrincipal who) => Number(who, Roles) | Number(who, RolesHere);

    /// <summary>The keys of the sites of a group where somebody has a right; null for every site.</summary>
    public static IReadOnlySet<string>? SitesWith(ClaimsPrincipal who, Right right)
    {
        if (Rights.Of(Number(who, Roles)).HasFlag(right))
        {
            return null;
        }

        var there = who.Claims.Where(c => c.Type.StartsWith(RolesAt, StringComparison.Ordinal)).Select(c => c.Type);
        return there.Where(type => Rights.Of(Number(who, type)).HasFlag(right)).Select(type => type[RolesAt.Length..]).ToHashSet(StringComparer.Ordinal);
    }

    /// <summary>Nobody has no rights; a badge on a shared tablet has those of station work at most.</summary>
    public static Right RightsOf(ClaimsPrincipal who)
    {
        if (who.Identity?.IsAuthenticated != true)
        {
            return Right.None;
        }

        var rights = Rights.Of(RolesOf(who));
        return IsTablet(who) ? rights & Rights.OfTablet : rights;
    }

    public static bool IsTablet(ClaimsPrincipal who) => who.HasClaim(c => c.Type == Tablet);

    public static string NameOf(ClaimsPrincipal who) => who.Identity?.Name ?? "";

    public static int? IdOf(ClaimsPrincipal who) =>
        int.TryParse(who.FindFirstValue(ClaimTypes.NameIdentifier), NumberStyles.None, CultureInfo.InvariantCulture, out var id) ? id : null;

    public static Claim Of(Role roles) => Of(Roles, roles);

    public static Claim Of(string type, Role roles) => new(type, ((int)roles).ToString(CultureInfo.InvariantCulture), ClaimValueTypes.Integer);

    private static Role Number(ClaimsPrincipal who, string type) =>
        int.TryParse(who.FindFirstValue(type), NumberStyles.None, CultureInfo.InvariantCulture, out var roles) ? (Role)roles : Role.None;
}

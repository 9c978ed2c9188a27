using System.Globalization;
using System.Security.Claims;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Accounts;

/// <summary>What a cookie or an API key says about who asks.</summary>
internal static class RoomClaims
{
    /// <summary>The roles as a number of <see cref="Role"/>.</summary>
    public const string Roles = "room:roles";

    /// <summary>The shared tablet on which a badge was scanned.</summary>
    public const string Tablet = "room:tablet";

    /// <summary>When the session ends, in seconds since 1970.</summary>
    public const string Ends = "room:ends";

    public static Role RolesOf(ClaimsPrincipal who) =>
        int.TryParse(who.FindFirstValue(Roles), NumberStyles.None, CultureInfo.InvariantCulture, out var roles) ? (Role)roles : Role.None;

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

    public static Claim Of(Role roles) => new(Roles, ((int)roles).ToString(CultureInfo.InvariantCulture), ClaimValueTypes.Integer);
}

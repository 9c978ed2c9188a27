using System.ComponentModel.DataAnnotations;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Accounts;

/// <summary>How people sign in: section "SignIn" of the settings.</summary>
public sealed class SignInOptions
{
    public const string Section = "SignIn";

    /// <summary>After how many hours a session ends, whatever happens in it.</summary>
    [Range(1, 72)]
    public int Hours { get; set; } = 12;

    /// <summary>The part of their names that the sites of a group share, such as plates.example: who signed in at one site is signed in at all. Empty for one host.</summary>
    public string CookieDomain { get; set; } = "";

    /// <summary>Least length of a password. Shorter than 15 only where everybody has a second factor.</summary>
    [Range(PasswordRules.Least, 64)]
    public int ShortestPassword { get; set; } = PasswordRules.UsualShortest;

    /// <summary>Wrong tries in a row until an account is locked.</summary>
    [Range(3, 100)]
    public int WrongTries { get; set; } = 5;

    /// <summary>For how many minutes it is locked.</summary>
    [Range(1, 1440)]
    public int LockedMinutes { get; set; } = 15;

    /// <summary>Sign-in by the house's own provider; off without an authority.</summary>
    public SingleSignOnOptions OpenIdConnect { get; set; } = new();
}

/// <summary>Sign-in by an OpenID Connect provider.</summary>
public sealed class SingleSignOnOptions
{
    /// <summary>The provider's address, https; empty for none.</summary>
    public string Authority { get; set; } = "";

    public string ClientId { get; set; } = "";

    /// <summary>Comes from the environment or a secret store, never from a file in the repository.</summary>
    public string ClientSecret { get; set; } = "";

    /// <summary>What the button says.</summary>
    public string Title { get; set; } = "Sign in with the company account";

    /// <summary>What is asked of the provider, with blanks between.</summary>
    public string Scopes { get; set; } = "openid profile";

    /// <summary>The claim with the person's name.</summary>
    public string NameClaim { get; set; } = "name";

    /// <summary>The claim with the groups that give roles.</summary>
    public string RoleClaim { get; set; } = "groups";

    /// <summary>Group to role: "plate-room-csr" to "Csr". Without a role nobody gets in.</summary>
    public Dictionary<string, Role> Roles { get; set; } = [];

    public bool IsOn => Authority.Length > 0;

    /// <summary>What is wrong with these settings; null when nothing is.</summary>
    public string? Trouble =>
        !IsOn ? null
        : !Uri.TryCreate(Authority, UriKind.Absolute, out var address) || (address.Scheme != Uri.UriSchemeHttps && !(address.Scheme == Uri.UriSchemeHttp && address.IsLoopback))
            ? $"SignIn:OpenIdConnect:Authority is “{Authority}”. It must be the https address of the provider."
        : ClientId.Length == 0 ? "SignIn:OpenIdConnect:ClientId is missing. The provider gives it when this program is registered there."
        : Roles.Count == 0 ? "SignIn:OpenIdConnect:Roles is empty, so nobody could come in. Name a group and its role, such as SignIn:OpenIdConnect:Roles:plate-room-lead = Lead."
        : null;

    /// <summary>The roles of somebody in these groups.</summary>
    public Role RolesOf(IEnumerable<string> groups) => groups.Aggregate(Role.None, (roles, group) => roles | Roles.GetValueOrDefault(group));
}

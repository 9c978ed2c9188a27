using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Accounts;

/// <summary>Lets a program in by "Authorization: Bearer" with an API key (RFC 6750).</summary>
internal sealed class ApiKeyHandler(IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory logs, UrlEncoder encoder, ApiKeys keys)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, logs, encoder)
{
    public const string Name = "ApiKey";

    private const string Bearer = "Bearer ";

    /// <summary>Does this request bring a key rather than a cookie?</summary>
    public static bool IsBearer(HttpRequest request) => request.Headers.Authorization.ToString().StartsWith(Bearer, StringComparison.OrdinalIgnoreCase);

    protected override async Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        if (!IsBearer(Request))
        {
            return AuthenticateResult.NoResult();
        }

        if (await keys.RecogniseAsync(Request.Headers.Authorization.ToString()[Bearer.Length..].Trim(), Context.RequestAborted) is not { } key)
        {
            return AuthenticateResult.Fail("The API key is not known, was revoked or has expired.");
        }

        var who = new ClaimsIdentity([new(ClaimTypes.Name, key.Name), RoomClaims.Of(key.Roles)], Name);
        return AuthenticateResult.Success(new AuthenticationTicket(new ClaimsPrincipal(who), Name));
    }

    protected override async Task HandleChallengeAsync(AuthenticationProperties properties)
    {
        Response.Headers.WWWAuthenticate = "Bearer";
        await RoomDoor.RefuseAsync(Context, StatusCodes.Status401Unauthorized);
    }

    protected override Task HandleForbiddenAsync(AuthenticationProperties properties) => RoomDoor.RefuseAsync(Context, StatusCodes.Status403Forbidden);
}

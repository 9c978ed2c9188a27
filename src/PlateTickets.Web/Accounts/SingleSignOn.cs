using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.OpenIdConnect;
using Microsoft.AspNetCore.Identity;
using Microsoft.IdentityModel.Protocols.OpenIdConnect;
using PlateTickets.Web.Startup;

namespace PlateTickets.Web.Accounts;

/// <summary>
/// Sign-in by the house's own provider: OpenID Connect Core 1.0, authorization code flow with PKCE (RFC 7636). What the provider says of the person
/// waits in a short-lived cookie until <see cref="SignInDesk.ByProviderAsync"/> has found the account.
/// </summary>
internal static class SingleSignOn
{
    private const string Scheme = "SingleSignOn";

    public static void AddServices(AuthenticationBuilder authentication, IConfiguration configuration)
    {
        var settings = configuration.GetSection(SignInOptions.Section).Get<SignInOptions>()?.OpenIdConnect;
        if (settings?.IsOn == true)
        {
            authentication.AddOpenIdConnect(Scheme, provider => Set(provider, settings));
        }
    }

    public static void Map(IEndpointRouteBuilder app) =>
        app.MapGet(Urls.SingleSignOn, StartAsync).AllowAnonymous().ExcludeFromDescription().RequireRateLimiting(Limits.Door);

    private static void Set(OpenIdConnectOptions provider, SingleSignOnOptions settings)
    {
        provider.Authority = settings.Authority;
        provider.ClientId = settings.ClientId;
        provider.ClientSecret = settings.ClientSecret.Length == 0 ? null : settings.ClientSecret;
        provider.RequireHttpsMetadata = !new Uri(settings.Authority).IsLoopback;
        provider.ResponseType = OpenIdConnectResponseType.Code;
        // The answer comes by an ordinary address, so that its cookies need not be sent along from foreign sites.
        provider.ResponseMode = OpenIdConnectResponseMode.Query;
        provider.CorrelationCookie.SameSite = provider.NonceCookie.SameSite = SameSiteMode.Lax;
        provider.CorrelationCookie.SecurePolicy = provider.NonceCookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        provider.UsePkce = true;
        provider.CallbackPath = Urls.SingleSignOnAnswer;
        provider.SignInScheme = IdentityConstants.ExternalScheme;
        provider.MapInboundClaims = false;
        provider.GetClaimsFromUserInfoEndpoint = true;
        provider.ClaimActions.MapJsonKey(settings.RoleClaim, settings.RoleClaim);
        provider.TokenValidationParameters.NameClaimType = settings.NameClaim;
        provider.Scope.Clear();
        foreach (var scope in settings.Scopes.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            provider.Scope.Add(scope);
        }

        // What went wrong is in the log; the person gets a sentence.
        provider.Events.OnRemoteFailure = failed =>
        {
            failed.Response.Redirect($"{Urls.CompanySignIn}?failed=true");
            failed.HandleResponse();
            return Task.CompletedTask;
        };
    }

    private static async Task<IResult> StartAsync(IAuthenticationSchemeProvider schemes, string? back = null) =>
        await schemes.GetSchemeAsync(Scheme) is null
            ? TypedResults.LocalRedirect(Urls.With(Urls.SignIn, DoorPage.Local(back)))
            : TypedResults.Challenge(new AuthenticationProperties { RedirectUri = Urls.With(Urls.CompanySignIn, DoorPage.Local(back)) }, [Scheme]);
}

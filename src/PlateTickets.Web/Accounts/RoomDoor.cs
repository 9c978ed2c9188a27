using System.Globalization;
using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Components.Endpoints;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Accounts;

/// <summary>Who may come in: cookies for people, keys for programs, a right for every page and endpoint.</summary>
internal static class RoomDoor
{
    private const string Either = "CookieOrKey";

    public static void AddServices(IServiceCollection services, IConfiguration configuration)
    {
        services.AddOptions<SignInOptions>().BindConfiguration(SignInOptions.Section).ValidateDataAnnotations().ValidateOnStart();
        services.AddSingleton<IValidateOptions<SignInOptions>, SignInCheck>();
        services.AddSingleton<AccountDesk>();
        services.AddSingleton<ApiKeys>();
        services.AddSingleton<Tablets>();
        services.AddSingleton<AccountStamps>();
        services.AddSingleton<SetUpCode>();
        services.AddHostedService<SetUpNotice>();
        services.AddScoped<SignInDesk>();
        services.AddHttpContextAccessor();
        services.AddIdentityCore<Account>(identity =>
            {
                PlateRoomDb.ChooseStores(identity);
                // The desk checks names; the trail shows them as the person writes them.
                identity.User.AllowedUserNameCharacters = "";
                identity.SignIn.RequireConfirmedAccount = true;
                identity.Password.RequiredLength = 1;
                identity.Password.RequiredUniqueChars = 1;
                identity.Password.RequireDigit = identity.Password.RequireLowercase = identity.Password.RequireUppercase = identity.Password.RequireNonAlphanumeric = false;
            })
            .AddEntityFrameworkStores<PlateRoomDb>()
            .AddSignInManager()
            .AddDefaultTokenProviders()
            .AddClaimsPrincipalFactory<RoomPrincipals>();
        services.AddSingleton<IClaimsTransformation, RolesHere>();
        services.AddScoped<IUserStore<Account>, AccountStore>();
        services.AddOptions<IdentityOptions>().Configure<IOptions<SignInOptions>>((identity, signIn) =>
        {
            identity.Lockout.MaxFailedAccessAttempts = signIn.Value.WrongTries;
            identity.Lockout.DefaultLockoutTimeSpan = TimeSpan.FromMinutes(signIn.Value.LockedMinutes);
        });
        services.AddScoped<IUserConfirmation<Account>, ActiveAccounts>();
        services.AddSingleton(provider => new PasswordRules(provider.GetRequiredService<IOptions<SignInOptions>>().Value.ShortestPassword));
        services.AddScoped<IPasswordValidator<Account>>(provider => provider.GetRequiredService<PasswordRules>());
        services.Configure<DataProtectionTokenProviderOptions>(tokens => tokens.TokenLifespan = TimeSpan.FromDays(3));
        services.Configure<SecurityStampValidatorOptions>(stamps =>
        {
            stamps.ValidationInterval = TimeSpan.FromSeconds(30);
            stamps.OnRefreshingPrincipal = KeepSession;
        });
        services.AddCascadingAuthenticationState();
        services.AddScoped<AuthenticationStateProvider, CircuitSession>();

        var authentication = services.AddAuthentication(Either)
            .AddPolicyScheme(Either, null, either => either.ForwardDefaultSelector = context =>
                ApiKeyHandler.IsBearer(context.Request) ? ApiKeyHandler.Name : IdentityConstants.ApplicationScheme)
            .AddScheme<AuthenticationSchemeOptions, ApiKeyHandler>(ApiKeyHandler.Name, null);
        authentication.AddIdentityCookies();
        SingleSignOn.AddServices(authentication, configuration);
        services.AddOptions<CookieAuthenticationOptions>(IdentityConstants.ApplicationScheme).Configure<IOptions<SignInOptions>>((cookie, signIn) =>
        {
            cookie.Cookie.Name = "plate-room";
            if (signIn.Value.CookieDomain.Length > 0)
            {
                cookie.Cookie.Domain = signIn.Value.CookieDomain;
            }

            cookie.Cookie.SameSite = SameSiteMode.Lax;
            cookie.Cookie.HttpOnly = true;
            cookie.LoginPath = Urls.SignIn;
            cookie.LogoutPath = Urls.SignOut;
            cookie.AccessDeniedPath = Urls.NotAllowed;
            cookie.ReturnUrlParameter = "back";
            cookie.ExpireTimeSpan = TimeSpan.FromHours(signIn.Value.Hours);
            cookie.SlidingExpiration = false;
            cookie.Events.OnSigningIn = NoteEnd;
            cookie.Events.OnValidatePrincipal = StillGood;
            cookie.Events.OnRedirectToLogin = context => Pages(context, StatusCodes.Status401Unauthorized);
            cookie.Events.OnRedirectToAccessDenied = context => Pages(context, StatusCodes.Status403Forbidden);
        });
        var authorization = services.AddAuthorizationBuilder();
        authorization.AddRights();
        authorization.SetFallbackPolicy(new AuthorizationPolicyBuilder().RequireAuthenticatedUser().Build());
        services.AddSingleton<IAuthorizationHandler, RightHandler>();
    }

    /// <summary>Says no to a program, with a sentence.</summary>
    public static Task RefuseAsync(HttpContext context, int status)
    {
        var (code, sentence) = status == StatusCodes.Status401Unauthorized
            ? ("not-signed-in", "Sign in, or send an API key: “Authorization: Bearer …”. A key that was revoked or has expired is not taken.")
            : ("not-allowed", $"{RoomClaims.NameOf(context.User)} may not do this here: it needs the right to {Asked(context)}.");
        return TypedResults.Problem(sentence, statusCode: status, extensions: new Dictionary<string, object?> { ["code"] = code }).ExecuteAsync(context);
    }

    private static string Asked(HttpContext context) =>
        context.GetEndpoint()?.Metadata.GetMetadata<NeedsAttribute>()?.Right.Title() ?? "be here";

    private static Task NoteEnd(CookieSigningInContext context)
    {
        var ends = context.Options.TimeProvider!.GetUtcNow() + context.Options.ExpireTimeSpan;
        ((ClaimsIdentity)context.Principal!.Identity!).AddClaim(new Claim(RoomClaims.Ends, ends.ToUnixTimeSeconds().ToString(CultureInfo.InvariantCulture)));
        return Task.CompletedTask;
    }

    // Looked up again, an account knows neither its tablet nor when this session began.
    private static Task KeepSession(SecurityStampRefreshingPrincipalContext context)
    {
        var fresh = (ClaimsIdentity)context.NewPrincipal!.Identity!;
        fresh.AddClaims(context.CurrentPrincipal!.Claims.Where(c => c.Type is RoomClaims.Ends or RoomClaims.Tablet && !fresh.HasClaim(f => f.Type == c.Type)).Select(c => new Claim(c.Type, c.Value)));
        return Task.CompletedTask;
    }

    // The cookie is written anew with a later expiry each time that its account was looked up: the session's own end counts.
    private static async Task StillGood(CookieValidatePrincipalContext context)
    {
        // Written by a clock that was put back since: without a time of issue the account is looked up now, and not only when the clock has caught up.
        if (context.Properties.IssuedUtc > context.Options.TimeProvider!.GetUtcNow())
        {
            context.Properties.IssuedUtc = null;
        }

        await SecurityStampValidator.ValidatePrincipalAsync(context);
        var ends = context.Principal is { } who && long.TryParse(who.FindFirstValue(RoomClaims.Ends), NumberStyles.None, CultureInfo.InvariantCulture, out var seconds) ? seconds : 0;
        if (context.Options.TimeProvider!.GetUtcNow().ToUnixTimeSeconds() >= ends)
        {
            context.RejectPrincipal();
        }
    }

    private sealed class SignInCheck : IValidateOptions<SignInOptions>
    {
        public ValidateOptionsResult Validate(string? name, SignInOptions options) =>
            options.OpenIdConnect.Trouble is { } trouble ? ValidateOptionsResult.Fail(trouble) : ValidateOptionsResult.Success;
    }

    // A program wants a status, a person a page.
    private static Task Pages(RedirectContext<CookieAuthenticationOptions> context, int status)
    {
        if (context.HttpContext.GetEndpoint()?.Metadata.GetMetadata<ComponentTypeMetadata>() is null)
        {
            return RefuseAsync(context.HttpContext, status);
        }

        context.Response.Redirect(context.RedirectUri);
        return Task.CompletedTask;
    }
}

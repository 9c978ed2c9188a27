using System.Security.Claims;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using OpenIddict.Abstractions;
using OpenIddict.Server;
using static OpenIddict.Abstractions.OpenIddictConstants;

namespace PlateTickets.Web.Tests.Accounts;

/// <summary>A provider of OpenID Connect that is not ours (OpenIddict), in which one person is signed in already.</summary>
internal sealed class CompanyProvider : IAsyncDisposable
{
    public const string ClientId = "plate-room";
    public const string ClientSecret = "a secret that the two share";

    private readonly WebApplication _app;

    private CompanyProvider(WebApplication app) => _app = app;

    public string Url => _app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();

    public string Subject { get; set; } = "7c1f";

    public string Name { get; set; } = "Ines Harbour";

    public string[] Groups { get; set; } = [];

    /// <summary>Does the provider say no?</summary>
    public bool Refuses { get; set; }

    public static async Task<CompanyProvider> StartAsync()
    {
        CompanyProvider? provider = null;
        var builder = WebApplication.CreateBuilder();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        builder.Logging.ClearProviders();
        builder.Services.AddOpenIddict().AddServer(server =>
        {
            server.SetAuthorizationEndpointUris("authorize").SetTokenEndpointUris("token").SetUserInfoEndpointUris("userinfo");
            server.AllowAuthorizationCodeFlow().RequireProofKeyForCodeExchange();
            server.RegisterScopes(Scopes.Profile);
            server.AddEphemeralEncryptionKey().AddEphemeralSigningKey();
            server.EnableDegradedMode();
            server.UseAspNetCore().DisableTransportSecurityRequirement();
            server.AddEventHandler<OpenIddictServerEvents.ValidateAuthorizationRequestContext>(handler => handler.UseInlineHandler(asked =>
            {
                if (asked.ClientId != ClientId)
                {
                    asked.Reject(Errors.AccessDenied, "Not here.");
                }

                return default;
            }));
            server.AddEventHandler<OpenIddictServerEvents.ValidateTokenRequestContext>(handler => handler.UseInlineHandler(asked =>
            {
                if (asked.ClientId != ClientId || asked.ClientSecret != ClientSecret)
                {
                    asked.Reject(Errors.InvalidClient, "Not this one.");
                }

                return default;
            }));
            server.AddEventHandler<OpenIddictServerEvents.HandleAuthorizationRequestContext>(handler => handler.UseInlineHandler(asked =>
            {
                if (provider!.Refuses)
                {
                    asked.Reject(Errors.AccessDenied, "The person said no.");
                }
                else
                {
                    asked.SignIn(provider.Person(asked.Request.GetScopes()));
                }

                return default;
            }));
            server.AddEventHandler<OpenIddictServerEvents.HandleUserInfoRequestContext>(handler => handler.UseInlineHandler(asked =>
            {
                asked.Claims["name"] = provider!.Name;
                return default;
            }));
        });
        var app = builder.Build();
        app.UseAuthentication();
        provider = new CompanyProvider(app);
        await app.StartAsync();
        return provider;
    }

    public async ValueTask DisposeAsync()
    {
        await _app.StopAsync();
        await _app.DisposeAsync();
    }

    private ClaimsPrincipal Person(IEnumerable<string> scopes)
    {
        var identity = new ClaimsIdentity("company", Claims.Name, Claims.Role);
        identity.SetClaim(Claims.Subject, Subject).SetClaim(Claims.Name, Name);
        identity.SetClaims("groups", [.. Groups]);
        identity.SetScopes(scopes);
        identity.SetDestinations(_ => [Destinations.IdentityToken, Destinations.AccessToken]);
        return new ClaimsPrincipal(identity);
    }
}

using System.Net;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;

namespace PlateTickets.Web.Startup;

/// <summary>Headers, cookies and limits that narrow what a browser and a stranger can do.</summary>
internal static class Hardening
{
    // Scripts only from files of this program. MudBlazor places its popovers with style attributes, hence unsafe-inline for styles alone.
    private const string Policy =
        "default-src 'self'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; "
        + "object-src 'none'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";

    public static void AddServices(IServiceCollection services)
    {
        services.AddOptions<ForwardedHeadersOptions>().Configure<IOptions<PlateRoomOptions>>((forwarded, room) =>
        {
            forwarded.ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto | ForwardedHeaders.XForwardedHost;
            foreach (var proxy in room.Value.Proxies)
            {
                if (IPAddress.TryParse(proxy, out var address))
                {
                    forwarded.KnownProxies.Add(address);
                }
                else
                {
                    forwarded.KnownIPNetworks.Add(System.Net.IPNetwork.Parse(proxy));
                }
            }
        });
        foreach (var scheme in new[] { IdentityConstants.ApplicationScheme, IdentityConstants.ExternalScheme, IdentityConstants.TwoFactorUserIdScheme, IdentityConstants.TwoFactorRememberMeScheme })
        {
            // Plain http is only ever served to this machine; behind https a cookie must never leave without it.
            services.Configure<CookieAuthenticationOptions>(scheme, cookie => cookie.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest);
        }

        services.Configure<AntiforgeryOptions>(antiforgery =>
        {
            antiforgery.Cookie.Name = "plate-room-form";
            antiforgery.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
            antiforgery.Cookie.SameSite = SameSiteMode.Strict;
            antiforgery.SuppressXFrameOptionsHeader = true;
        });
        services.Configure<FormOptions>(form =>
        {
            form.ValueCountLimit = 100;
            form.ValueLengthLimit = 64 * 1024;
        });
        services.AddHsts(hsts => hsts.MaxAge = TimeSpan.FromDays(365));
        services.Configure<Microsoft.AspNetCore.Server.Kestrel.Core.KestrelServerOptions>(kestrel => kestrel.AddServerHeader = false);
    }

    public static void Use(WebApplication app)
    {
        if (app.Services.GetRequiredService<IOptions<PlateRoomOptions>>().Value.BehindProxy)
        {
            app.UseForwardedHeaders();
        }

        app.UseHsts();
        app.Use((context, next) =>
        {
            var headers = context.Response.Headers;
            headers.ContentSecurityPolicy = Policy;
            headers.XContentTypeOptions = "nosniff";
            headers["Referrer-Policy"] = "same-origin";
            headers["Cross-Origin-Opener-Policy"] = "same-origin";
            headers["Cross-Origin-Resource-Policy"] = "same-origin";
            headers["Permissions-Policy"] = "geolocation=(), microphone=(), payment=(), usb=()";
            return next(context);
        });
    }
}

using System.Globalization;
using System.Security.Claims;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Components.Server;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Accounts;

/// <summary>Ends a page that stays open when its session is over or its account changed.</summary>
internal sealed class CircuitSession : RevalidatingServerAuthenticationStateProvider
{
    private readonly AccountStamps _stamps;
    private readonly AccountDesk _desk;
    private readonly TimeProvider _clock;
    private readonly string _stampClaim;

    public CircuitSession(ILoggerFactory logs, AccountStamps stamps, AccountDesk desk, TimeProvider clock, IOptions<IdentityOptions> options)
        : base(logs)
    {
        _stamps = stamps;
        _desk = desk;
        _clock = clock;
        _stampClaim = options.Value.ClaimsIdentity.SecurityStampClaimType;
        _desk.Changed += AccountChanged;
    }

    protected override TimeSpan RevalidationInterval => TimeSpan.FromSeconds(30);

    protected override Task<bool> ValidateAuthenticationStateAsync(AuthenticationState authenticationState, CancellationToken cancellationToken) =>
        IsGoodAsync(authenticationState.User, cancellationToken);

    protected override void Dispose(bool disposing)
    {
        _desk.Changed -= AccountChanged;
        base.Dispose(disposing);
    }

    private async Task<bool> IsGoodAsync(ClaimsPrincipal who, CancellationToken cancel)
    {
        var ends = long.TryParse(who.FindFirstValue(RoomClaims.Ends), NumberStyles.None, CultureInfo.InvariantCulture, out var seconds) ? seconds : 0;
        return _clock.GetUtcNow().ToUnixTimeSeconds() < ends && RoomClaims.IdOf(who) is { } id && await _stamps.IsGoodAsync(id, who.FindFirstValue(_stampClaim) ?? "", cancel);
    }

    private void AccountChanged(int id) => _ = CheckAsync(id);

    private async Task CheckAsync(int id)
    {
        var who = (await GetAuthenticationStateAsync()).User;
        if (RoomClaims.IdOf(who) == id && !await IsGoodAsync(who, CancellationToken.None))
        {
            SetAuthenticationState(Task.FromResult(new AuthenticationState(new ClaimsPrincipal(new ClaimsIdentity()))));
        }
    }
}

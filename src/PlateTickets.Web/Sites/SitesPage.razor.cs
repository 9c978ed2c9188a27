using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Authorization;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Sites;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Accounts;

namespace PlateTickets.Web.Sites;

/// <summary>The plate rooms of the group at a glance: what is late where.</summary>
public sealed partial class SitesPage : IDisposable
{
    private static readonly TimeSpan Again = TimeSpan.FromSeconds(5);

    private IReadOnlyList<SiteStanding>? _sites;
    private IReadOnlySet<string>? _mine;
    private TimeZoneInfo? _zone;
    private string _here = "";
    private PeriodicTimer? _timer;
    private string _trouble = "";

    [Inject]
    public required SiteKey Site { get; set; }

    [Inject]
    internal GroupStandings Standings { get; set; } = null!;

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    [CascadingParameter]
    public required Task<AuthenticationState> Session { get; set; }

    public void Dispose() => _timer?.Dispose();

    protected override async Task OnInitializedAsync()
    {
        if (Site.IsAlone)
        {
            return;
        }

        var room = await Rooms.GetAsync();
        (_zone, _here) = (room.Zone, room.Site.Name);
        _mine = RoomClaims.SitesWith((await Session).User, Right.Look);
        await ReadAsync();
    }

    protected override void OnAfterRender(bool firstRender)
    {
        if (firstRender && !Site.IsAlone)
        {
            _timer = new PeriodicTimer(Again);
            _ = FollowAsync(_timer);
        }
    }

    private async Task FollowAsync(PeriodicTimer timer)
    {
        while (await timer.WaitForNextTickAsync())
        {
            await InvokeAsync(ReadAgainAsync);
        }
    }

    private async Task ReadAgainAsync()
    {
        try
        {
            await ReadAsync();
            _trouble = "";
        }
        catch (Exception e) when (DatabaseFault.Of(e) is { } fault)
        {
            _trouble = fault.Sentence;
        }

        StateHasChanged();
    }

    private async Task ReadAsync() =>
        _sites = [.. (await Standings.ReadAsync()).Where(s => _mine?.Contains(s.Site) ?? true).OrderByDescending(s => s.Late).ThenByDescending(s => s.AtRisk)];

    private bool IsSilent(SiteStanding site) => Clock.GetUtcNow().UtcDateTime - site.ToldUtc > SiteTeller.Silent;

    private string At(DateTime utc) => SiteClock.Near(utc, Clock.GetUtcNow().UtcDateTime, _zone!);
}

using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Accounts;

/// <summary>Keys for programs.</summary>
public sealed partial class KeysPage
{
    private IReadOnlyList<ApiKey>? _keys;
    private TimeZoneInfo? _zone;
    private string _name = "";
    private Role _roles;
    private int _days = 365;
    private string _made = "";
    private string _refusal = "";

    [Inject]
    public required ApiKeys Keys { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    private DateTime Now => Clock.GetUtcNow().UtcDateTime;

    protected override async Task OnInitializedAsync()
    {
        _zone = (await Rooms.GetAsync()).Zone;
        _keys = await Keys.ListAsync();
    }

    private string Near(DateTime utc) => SiteClock.Near(utc, Now, _zone!);

    private Task CreateAsync() => TryAsync(async () =>
    {
        _made = await Keys.CreateAsync(_name, _roles, TimeSpan.FromDays(Math.Clamp(_days, 0, 100_000)), Viewer.Name);
        (_name, _roles) = ("", Role.None);
    });

    private Task RevokeAsync(ApiKey key) => TryAsync(() => Keys.RevokeAsync(key.Id, Viewer.Name));

    private async Task TryAsync(Func<Task> work)
    {
        _refusal = _made = "";
        try
        {
            Viewer.Require(Right.KeepAccounts);
            await work();
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }

        _keys = await Keys.ListAsync();
    }
}

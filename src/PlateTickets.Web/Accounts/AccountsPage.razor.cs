using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Authorization;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Sites;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Accounts;

/// <summary>Who may sign in, as what, and with which means.</summary>
public sealed partial class AccountsPage
{
    private IReadOnlyList<AccountLine>? _accounts;
    private bool _ofAllSites;
    private bool _everySite;
    private bool _editedEverySite;
    private bool _reachesAll;
    private TimeZoneInfo? _zone;
    private string _name = "";
    private Role _roles;
    private int _editing;
    private Role _edited;
    private string _refusal = "";
    private Invitation? _invitation;
    private NewBadge? _badge;

    [Inject]
    public required AccountDesk Desk { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    [Inject]
    public required NavigationManager Navigation { get; set; }

    [Inject]
    public required SiteKey Site { get; set; }

    [CascadingParameter]
    public required Task<AuthenticationState> Session { get; set; }

    private DateTime Now => Clock.GetUtcNow().UtcDateTime;

    protected override async Task OnInitializedAsync()
    {
        _zone = (await Rooms.GetAsync()).Zone;
        _reachesAll = Site.IsAlone || RoomClaims.SitesWith((await Session).User, Right.KeepAccounts) is null;
        _accounts = await Desk.ListAsync();
    }

    private Task ShowAllAsync() => TryAsync(() => Task.FromResult(_ofAllSites = !_ofAllSites));

    private string RolesText(AccountLine line) => Site.IsAlone
        ? line.Roles.Title()
        : string.Join("; ", new[]
        {
            line.Account.Roles != Role.None ? $"{line.Account.Roles.Title()} at every site" : "",
            line.Here != Role.None ? $"{line.Here.Title()} here" : "",
            line.Elsewhere.Count > 0 ? $"also at {string.Join(", ", line.Elsewhere)}" : "",
        }.Where(t => t.Length > 0)) is { Length: > 0 } text ? text : "nothing";

    private static string Means(Account account) => string.Join(", ", new[]
    {
        account.PasswordHash is not null ? "password" : "",
        account.TwoFactorEnabled ? "second factor" : "",
        account.BadgeHash is not null ? "badge" : "",
    }.Where(m => m.Length > 0)) is { Length: > 0 } means ? means : "nothing yet";

    // The framework counts the lock by the machine's clock.
    private static bool IsLocked(Account account) => account.LockoutEnd > TimeProvider.System.GetUtcNow();

    private Task CreateAsync() => TryAsync(async () =>
    {
        _invitation = await Desk.CreateAsync(_name, _roles, Viewer.Name, Site.IsAlone || _everySite);
        (_name, _roles) = ("", Role.None);
    });

    private void Edit(AccountLine line) => (_editing, _edited, _editedEverySite) = (line.Account.Id, line.Roles, line.Account.Roles != Role.None);

    private Task RolesAsync(Account account) => TryAsync(async () =>
    {
        await Desk.SetRolesAsync(account.Id, _edited, Viewer.Name, Site.IsAlone || _editedEverySite);
        _editing = 0;
    });

    private Task InviteAsync(Account account) => TryAsync(async () => _invitation = await Desk.InviteAsync(account.Id, Viewer.Name));

    private Task BadgeAsync(Account account) => TryAsync(async () => _badge = await Desk.GiveBadgeAsync(account.Id, Viewer.Name));

    private Task TakeBadgeAsync(Account account) => TryAsync(() => Desk.TakeBadgeAsync(account.Id, Viewer.Name));

    private Task SecondFactorAsync(Account account) => TryAsync(() => Desk.ForgetSecondFactorAsync(account.Id, Viewer.Name));

    private Task UnlockAsync(Account account) => TryAsync(() => Desk.UnlockAsync(account.Id, Viewer.Name));

    private Task ActiveAsync(Account account) => TryAsync(() => Desk.SetActiveAsync(account.Id, !account.IsActive, Viewer.Name));

    private async Task TryAsync(Func<Task> work)
    {
        _refusal = "";
        _invitation = null;
        _badge = null;
        try
        {
            Viewer.Require(Right.KeepAccounts);
            await work();
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }

        _accounts = await Desk.ListAsync(_ofAllSites);
    }
}

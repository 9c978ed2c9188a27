using System.Globalization;
using System.Security.Claims;
using System.Text;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Calendars;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Accounts;

/// <summary>What a person changes about the own account.</summary>
public sealed partial class AccountPage
{
    private const int RecoveryCodes = 10;

    private Account? _me;
    private bool _tablet;
    private bool _demo;
    private string _ends = "";
    private string _key = "";
    private int _left;
    private string _uri = "";
    private IReadOnlyList<string> _codes = [];
    private string _calendar = "";
    private IReadOnlyList<CalendarFeed> _feeds = [];
    private TimeZoneInfo _zone = TimeZoneInfo.Utc;

    [Inject]
    internal SignInDesk Desk { get; set; } = null!;

    [Inject]
    public required AccountDesk Accounts { get; set; }

    [Inject]
    public required CalendarFeeds Calendars { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    [Inject]
    public required UserManager<Account> Users { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required IOptions<SignInOptions> Options { get; set; }

    [SupplyParameterFromForm(FormName = "password")]
    public ChangeForm? Typed { get; set; }

    [SupplyParameterFromForm(FormName = "second-on")]
    public string? Code { get; set; }

    [SupplyParameterFromForm(FormName = "pin")]
    public string? Pin { get; set; }

    [SupplyParameterFromForm(FormName = "calendar")]
    public bool DueTimes { get; set; }

    [SupplyParameterFromForm(FormName = "calendar")]
    public bool Checks { get; set; }

    protected override async Task OnInitializedAsync()
    {
        Typed ??= new ChangeForm();
        // A page with a key on it must not lie in a cache.
        Context.Response.Headers.CacheControl = "no-store";
        var room = await Rooms.GetAsync();
        (_demo, _zone) = (room.Site.IsDemo, room.Zone);
        _tablet = RoomClaims.IsTablet(Context.User);
        _ends = long.TryParse(Context.User.FindFirstValue(RoomClaims.Ends), NumberStyles.None, CultureInfo.InvariantCulture, out var seconds)
            ? TimeZoneInfo.ConvertTime(DateTimeOffset.FromUnixTimeSeconds(seconds), room.Zone).ToString("ddd HH:mm", CultureInfo.InvariantCulture)
            : "";
        await ReadAsync();
    }

    private async Task ReadAsync()
    {
        _me = await Desk.MeAsync();
        _feeds = _tablet ? [] : await Calendars.ListAsync(_me.Id);
        if (_tablet || _me.PasswordHash is null)
        {
            return;
        }

        if (_me.TwoFactorEnabled)
        {
            _left = await Users.CountRecoveryCodesAsync(_me);
        }
        else if (Code is not null && await Users.GetAuthenticatorKeyAsync(_me) is not null)
        {
            // The form that was sent must be on the page again, or nobody takes it.
            await ShowKeyAsync();
        }
    }

    private async Task ShowKeyAsync()
    {
        var key = await Users.GetAuthenticatorKeyAsync(_me!) ?? throw new PlateRoomException("Begin again with “Set it up”.");
        _key = string.Join(' ', key.ToLowerInvariant().Chunk(4).Select(c => new string(c)));
        _uri = $"otpauth://totp/PlateTickets:{Uri.EscapeDataString(_me!.UserName!)}?secret={key}&issuer=PlateTickets&digits=6";
    }

    private Task PasswordAsync() => TryAsync(async () =>
    {
        OwnBrowser();
        PasswordPage.CheckTwice(Typed!.Password, Typed.Again);
        var result = await Users.ChangePasswordAsync(_me!, PasswordRules.Normal(Typed.Old ?? ""), PasswordRules.Normal(Typed.Password!));
        Check(result);
        await Desk.AgainAsync(_me!);
        Done = "The password is changed. All your other sessions have ended.";
    });

    private Task StartAsync() => TryAsync(async () =>
    {
        OwnBrowser();
        if (!_me!.TwoFactorEnabled)
        {
            Check(await Users.ResetAuthenticatorKeyAsync(_me));
            await Desk.AgainAsync(_me);
            await ShowKeyAsync();
        }
    });

    private Task OnAsync() => TryAsync(async () =>
    {
        OwnBrowser();
        var clean = new string([.. (Code ?? "").Where(char.IsAsciiDigit)]);
        if (!await Users.VerifyTwoFactorTokenAsync(_me!, Users.Options.Tokens.AuthenticatorTokenProvider, clean))
        {
            throw new PlateRoomException("These digits are not right. Is the clock of the telephone right? Type the digits that the app shows now.");
        }

        Check(await Users.SetTwoFactorEnabledAsync(_me!, true));
        _key = "";
        _codes = [.. await Users.GenerateNewTwoFactorRecoveryCodesAsync(_me!, RecoveryCodes) ?? []];
        await Desk.AgainAsync(_me!);
        await ReadAsync();
        Done = "The second factor is on.";
    });

    private Task OffAsync() => TryAsync(async () =>
    {
        OwnBrowser();
        Check(await Users.SetTwoFactorEnabledAsync(_me!, false));
        Check(await Users.ResetAuthenticatorKeyAsync(_me!));
        await Desk.AgainAsync(_me!);
        await ReadAsync();
        Done = "The second factor is off.";
    });

    private Task PinAsync() => TryAsync(async () =>
    {
        await Accounts.SetPinAsync(_me!.Id, (Pin ?? "").Trim(), _me.UserName!);
        Done = "The PIN is changed.";
    });

    private Task CalendarAsync() => TryAsync(async () =>
    {
        OwnBrowser();
        var shows = (DueTimes ? CalendarContent.DueTimes : CalendarContent.None) | (Checks ? CalendarContent.Checks : CalendarContent.None);
        var secret = await Calendars.CreateAsync(_me!.Id, shows, _me.UserName!);
        _calendar = $"{Context.Request.Scheme}://{Context.Request.Host}{Context.Request.PathBase}{Urls.Calendar(secret)}";
        _feeds = await Calendars.ListAsync(_me.Id);
    });

    private Task EndCalendarAsync(int id) => TryAsync(async () =>
    {
        OwnBrowser();
        await Calendars.RemoveAsync(_me!.Id, id, _me.UserName!);
        _feeds = await Calendars.ListAsync(_me.Id);
        Done = "The calendar address has ended.";
    });

    private string Near(DateTime utc) => SiteClock.Near(utc, Clock.GetUtcNow().UtcDateTime, _zone);

    private static string Words(CalendarContent shows) => shows switch
    {
        CalendarContent.DueTimes => "Due times",
        CalendarContent.Checks => "Lamp readings and step tests",
        _ => "Due times, lamp readings and step tests",
    };

    private Task EverywhereAsync() => TryAsync(async () =>
    {
        await Accounts.EndSessionsAsync(_me!.Id, _me.UserName!);
        await Desk.OutAsync();
        Navigation.NavigateTo(Urls.SignIn);
    });

    private void OwnBrowser()
    {
        if (_tablet)
        {
            throw new PlateRoomException("Passwords, codes and calendars are changed in a browser of your own.");
        }
    }

    private static void Check(IdentityResult result)
    {
        if (!result.Succeeded)
        {
            throw new PlateRoomException(result.Errors.Any(e => e.Code == nameof(IdentityErrorDescriber.PasswordMismatch))
                ? "The password so far is not right."
                : new StringBuilder().AppendJoin(' ', result.Errors.Select(e => e.Description)).ToString());
        }
    }

    public sealed class ChangeForm
    {
        public string? Old { get; set; }

        public string? Password { get; set; }

        public string? Again { get; set; }
    }
}

using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.Options;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Accounts;

public sealed partial class SignInPage
{
    private bool _demo;
    private Tablet? _tablet;
    private string? _provider;

    [Inject]
    internal SignInDesk Desk { get; set; } = null!;

    [Inject]
    public required IOptions<SignInOptions> Options { get; set; }

    /// <summary>Was a badge scanned at a station?</summary>
    [SupplyParameterFromQuery(Name = "badge")]
    public bool HasBadge { get; set; }

    [SupplyParameterFromForm(FormName = "password")]
    public PasswordForm? Typed { get; set; }

    [SupplyParameterFromForm(FormName = "badge")]
    public BadgeForm? Badge { get; set; }

    protected override async Task OnInitializedAsync()
    {
        Typed ??= new PasswordForm();
        Badge ??= new BadgeForm();
        _demo = await Desk.IsOpenDemoAsync();
        _tablet = await Desk.TabletAsync();
        _provider = Options.Value.OpenIdConnect is { IsOn: true } sso ? sso.Title : null;
    }

    private Task ByPasswordAsync() => TryAsync(async () =>
    {
        if (await Desk.ByPasswordAsync(Typed!.Name ?? "", Typed.Password ?? ""))
        {
            Navigation.NavigateTo(Urls.With(Urls.SecondFactor, Back));
            return;
        }

        GoBack();
    });

    private Task ByBadgeAsync() => TryAsync(async () =>
    {
        await Desk.ByBadgeAsync(Badge!.Number ?? "", Badge.Pin ?? "");
        Navigation.NavigateTo(Back is null or Urls.Home ? Urls.Stations : Local(Back));
    });

    public sealed class PasswordForm
    {
        public string? Name { get; set; }

        public string? Password { get; set; }
    }

    public sealed class BadgeForm
    {
        public string? Number { get; set; }

        public string? Pin { get; set; }
    }
}

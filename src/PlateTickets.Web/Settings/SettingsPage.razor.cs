using Microsoft.AspNetCore.Components;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Settings;

/// <summary>What the room and the person in front of the page have chosen.</summary>
public sealed partial class SettingsPage
{
    private Room? _room;
    private string _own = "";

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required SiteSettings Settings { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required BrowserTools Browser { get; set; }

    private string Example =>
        $"Here a plate is {Viewer.Units.Thickness(1.7)} thick, a repeat is {Viewer.Units.Show(400)}, a sheet {Viewer.Units.Size(900, 1200)}, a transport speed {Viewer.Units.Speed(150)}.";

    protected override async Task OnInitializedAsync()
    {
        _own = Viewer.Own?.ToString() ?? "";
        _room = await Rooms.GetAsync();
    }

    private async Task SiteUnitsAsync(ChangeEventArgs e)
    {
        await Settings.SetUnitsAsync(Enum.Parse<LengthSystem>((string)e.Value!), "Lead");
        _room = await Rooms.GetAsync();
        Viewer.Choose(_own, _room.Site.Units);
    }

    private async Task OwnUnitsAsync(ChangeEventArgs e)
    {
        _own = (string)e.Value!;
        Viewer.Choose(_own, _room!.Site.Units);
        await Browser.KeepCookieAsync(Viewer.UnitsCookie, _own.ToLowerInvariant());
    }
}

using System.Globalization;
using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stations.Duty;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Settings;

/// <summary>What the room and the person in front of the page have chosen.</summary>
public sealed partial class SettingsPage
{
    private Room? _room;
    private string _own = "";
    private string _refusal = "";

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required SiteSettings Settings { get; set; }

    [Inject]
    public required DutyDesk Duty { get; set; }

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
        Viewer.Require(Right.KeepRoom);
        await Settings.SetUnitsAsync(Enum.Parse<LengthSystem>((string)e.Value!), Viewer.Name);
        _room = await Rooms.GetAsync();
        Viewer.Choose(_own, _room.Site.Units);
    }

    private async Task OwnUnitsAsync(ChangeEventArgs e)
    {
        _own = (string)e.Value!;
        Viewer.Choose(_own, _room!.Site.Units);
        await Browser.KeepCookieAsync(Viewer.UnitsCookie, _own.ToLowerInvariant());
    }

    private static string Hours(ShiftEntry shift) =>
        string.Create(CultureInfo.InvariantCulture, $"{shift.Name}, {shift.Start:HH':'mm} to {shift.End:HH':'mm}");

    private async Task OperatorsAsync(int shiftId, ChangeEventArgs e)
    {
        _refusal = "";
        var text = (e.Value as string ?? "").Trim();
        try
        {
            Viewer.Require(Right.KeepRoom);
            await Duty.SetOperatorsAsync(
                shiftId, text.Length == 0 ? null : int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var people) ? people : 0, Viewer.Name);
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }

        _room = await Rooms.GetAsync();
    }
}

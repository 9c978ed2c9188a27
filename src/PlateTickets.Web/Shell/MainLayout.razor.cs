using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Routing;
using Microsoft.AspNetCore.Components.Web;
using PlateTickets.Tickets.Sites;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Shell;

public sealed partial class MainLayout : IDisposable
{
    private ErrorBoundary? _errors;
    private string _site = "";
    private bool _demo;
    private string _path = "";

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required SiteKey Site { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required NavigationManager Navigation { get; set; }

    public void Dispose() => Navigation.LocationChanged -= Moved;

    protected override async Task OnInitializedAsync()
    {
        _path = Navigation.ToBaseRelativePath(Navigation.Uri);
        Navigation.LocationChanged += Moved;
        var site = (await Rooms.GetAsync()).Site;
        _site = site.Name;
        _demo = site.IsDemo;
    }

    private void Moved(object? sender, LocationChangedEventArgs e)
    {
        _path = Navigation.ToBaseRelativePath(e.Location);
        _errors?.Recover();
        InvokeAsync(StateHasChanged);
    }
}

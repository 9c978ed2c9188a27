using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.Options;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Exchange.Status;
using PlateTickets.Web.Shell;
using PlateTickets.Web.Startup;

namespace PlateTickets.Web.Exchange.Status;

/// <summary>Makes, shows and ends the address of an order's status page.</summary>
public sealed partial class CustomerLink
{
    private string? _address;
    private bool _read;
    private string _refusal = "";

    [Parameter]
    [EditorRequired]
    public required string Number { get; set; }

    [Parameter]
    [EditorRequired]
    public required int OrderId { get; set; }

    [Inject]
    public required StatusLinks Links { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required NavigationManager Navigation { get; set; }

    [Inject]
    public required IOptions<ExchangeOptions> Exchange { get; set; }

    [Inject]
    public required IOptions<PlateRoomOptions> Room { get; set; }

    protected override async Task OnParametersSetAsync()
    {
        Show(await Links.FindAsync(OrderId));
        _read = true;
    }

    private Task MakeAsync() => TryAsync(async () => Show(await Links.MakeAsync(Number, Viewer.Name)));

    private Task EndAsync() => TryAsync(async () =>
    {
        await Links.EndAsync(Number, Viewer.Name);
        Show(null);
    });

    // Without a setting the address is the one under which this person reaches the program.
    private void Show(string? token) =>
        _address = token is null ? null : (Exchange.Value.ReachedAt(Room.Value) is { Length: > 0 } set ? set : Navigation.BaseUri.TrimEnd('/')) + Urls.Status(token);

    private async Task TryAsync(Func<Task> work)
    {
        _refusal = "";
        try
        {
            Viewer.Require(Right.EnterOrders);
            await work();
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }
    }
}

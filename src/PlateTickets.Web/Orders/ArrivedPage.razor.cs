using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.Options;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Arrivals;
using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;
using PlateTickets.Web.Startup;

namespace PlateTickets.Web.Orders;

/// <summary>The files of the drop folder that found no ticket by themselves, for the CSR. It follows the folder.</summary>
public sealed partial class ArrivedPage : IDisposable
{

    private readonly Dictionary<int, Choice> _choices = [];
    private List<ArrivedFile>? _files;
    private TimeZoneInfo _zone = TimeZoneInfo.Utc;
    private string? _trouble;
    private bool _busy;

    [Inject]
    public required ArrivalDesk Desk { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required IOptions<PlateRoomOptions> Options { get; set; }

    [SupplyParameterFromQuery]
    public bool Done { get; set; }

    private string FolderText => Options.Value.DropFolder.Length == 0
        ? "No drop folder is set: the setting Room:DropFolder names one."
        : $"Files put into {Options.Value.DropFolder} come here by themselves. One named like T…_Cyan.tif, with a ticket's number, goes to that ticket, which then waits until somebody says that its files are complete.";

    public void Dispose() => Desk.Changed -= FilesChanged;

    protected override void OnInitialized() => Desk.Changed += FilesChanged;

    protected override async Task OnParametersSetAsync()
    {
        _zone = (await Rooms.GetAsync()).Zone;
        _files = await Desk.ListAsync(Done);
    }

    private void FilesChanged() => InvokeAsync(async () =>
    {
        _files = await Desk.ListAsync(Done);
        StateHasChanged();
    });

    private Task GiveAsync(ArrivedFile file) => TryAsync(() => Desk.GiveAsync(file.Id, Of(file).Ticket, Of(file).Colour, Of(file).Because, Viewer.Name));

    private Task SetAsideAsync(ArrivedFile file) => TryAsync(() => Desk.SetAsideAsync(file.Id, Of(file).Reason, Viewer.Name));

    private async Task TryAsync(Func<Task> action)
    {
        (_trouble, _busy) = (null, true);
        try
        {
            await action();
            _files = await Desk.ListAsync(Done);
        }
        catch (Exception e) when (e is PlateRoomException or SeparationException or IOException)
        {
            _trouble = e.Message;
        }
        catch (OrderRefusedException refused)
        {
            _trouble = string.Join(" ", refused.Errors.Values);
        }
        finally
        {
            _busy = false;
        }
    }

    private Choice Of(ArrivedFile file)
    {
        if (!_choices.TryGetValue(file.Id, out var choice))
        {
            _choices[file.Id] = choice = new Choice { Ticket = file.TicketNumber, Colour = file.Colour };
        }

        return choice;
    }

    private static string Text(ChangeEventArgs e) => (e.Value as string ?? "").Trim();

    /// <summary>What was typed beside a file.</summary>
    private sealed class Choice
    {
        public string Ticket { get; set; } = "";

        public string Colour { get; set; } = "";

        public string Because { get; set; } = "";

        public string Reason { get; set; } = "";
    }
}

using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Orders;

/// <summary>Everything about one ticket. It follows its own sheets: a scan elsewhere shows here at once.</summary>
public sealed partial class TicketPage : IDisposable
{
    private readonly List<string> _refusals = [];
    private TicketView? _view;
    private IReadOnlyList<RemakeLine> _remakes = [];
    private Room? _room;
    private SeparationDrop? _drop;

    [Parameter]
    public string Number { get; set; } = "";

    private int? _document;

    [Inject]
    public required DocumentDesk Documents { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required OrderQueries Queries { get; set; }

    [Inject]
    public required RemakeDesk Remakes { get; set; }

    [Inject]
    public required OrderEntry Entry { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Tickets.Board.BoardState Board { get; set; }

    [Inject]
    public required PlanBook Plan { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    private DateTime Now => Clock.GetUtcNow().UtcDateTime;

    private string StateText => _view!.Ticket.State switch
    {
        TicketState.WaitingForFiles => "Waits for its separations",
        TicketState.WaitingForLayout => "Waits for its layout",
        TicketState.Ready => "Laid out, not started",
        TicketState.InWork => "In work",
        TicketState.Done => "Done",
        _ => "Cancelled",
    };

    /// <summary>What simulation says of an open ticket, and why it comes late if it does.</summary>
    private string? Outlook
    {
        get
        {
            if (_view!.Ticket.State is TicketState.Done or TicketState.Cancelled || Plan.Now?.Outlooks.GetValueOrDefault(_view.Order.Id) is not { } outlook)
            {
                return null;
            }

            string At(DateTime utc) => SiteClock.Near(PromiseDesk.Rounded(utc), Now, _room!.Zone);
            var late = outlook.PlannedUtc > _view.Order.DueUtc && Plan.Critical(_view.Order.Id) is { } critical ? $" It comes late because its last sheet {CriticalWords.Say(critical, _room!)}." : "";
            return $"Simulated with the times that work really takes here: done by {At(outlook.Finish.Half)} with 50\u00a0% confidence, by {At(outlook.Finish.Eighty)} with 80\u00a0%, by {At(outlook.Finish.NinetyFive)} with 95\u00a0%. Chance to be late: {LatenessMark.Percent(outlook.LateChance)}.{late}";
        }
    }

    private string Distortion
    {
        get
        {
            try
            {
                return LengthAdvice.Expected(_view!.Order.RepeatUm / 1000.0, _view.Order.Material!, Viewer.Units);
            }
            catch (PlateRoomException refused)
            {
                return refused.Message;
            }
        }
    }

    private IEnumerable<(Plate Plate, Separation Separation, string? Sheet)> PlateRows
    {
        get
        {
            var separations = _view!.Ticket.Separations.ToDictionary(s => s.Id);
            var sheets = _view.Sheets.SelectMany(s => s.Placements.Select(p => (p.PlateId, s.Number))).ToDictionary(p => p.PlateId, p => p.Number);
            return _view.Plates.Select(p => (p, separations[p.SeparationId], sheets.GetValueOrDefault(p.Id)));
        }
    }

    public void Dispose() => Board.Changed -= BoardChanged;

    protected override void OnInitialized() => Board.Changed += BoardChanged;

    protected override async Task OnParametersSetAsync()
    {
        _room = null;
        _view = null;
        await ReadAsync();
        _document = _view is { } view ? await Documents.OfOrderAsync(view.Order.Id) : null;
    }

    private IReadOnlyList<RemakeLine> OpenRemakes => [.. _remakes.Where(r => !r.Done)];

    private async Task ReadAsync()
    {
        var read = TrackingNumber.Read(Number);
        _view = read.Kind == NumberKind.Ticket ? await Queries.FindAsync(read.Number!) : null;
        _remakes = _view is null ? [] : await Remakes.OfTicketAsync(_view.Order.Id);
        _room = await Rooms.GetAsync();
    }

    private void BoardChanged(IReadOnlyCollection<int> ids)
    {
        if (_view is { } view && (view.Sheets.Any(s => ids.Contains(s.Id)) || ids.Any(id => Board.Now.Sheets.GetValueOrDefault(id)?.Tickets.Any(t => t.Id == view.Order.Id) == true)))
        {
            InvokeAsync(async () =>
            {
                await ReadAsync();
                StateHasChanged();
            });
        }
    }

    private async Task AddFilesAsync(bool complete)
    {
        _refusals.Clear();
        try
        {
            Viewer.Require(Right.EnterOrders);
            await Entry.AddSeparationsAsync(_view!.Order.Number, _drop!.Separations, Viewer.Name, layOut: complete);
            await ReadAsync();
        }
        catch (OrderRefusedException refused)
        {
            _refusals.AddRange(refused.Errors.Values);
        }
        catch (PlateRoomException refused)
        {
            _refusals.Add(refused.Message);
        }
    }

}

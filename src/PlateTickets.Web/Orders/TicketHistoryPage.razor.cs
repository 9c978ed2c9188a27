using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders.History;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Audit;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Orders;

/// <summary>Everything that happened to a ticket, newest first. What is shown lives in the address.</summary>
public sealed partial class TicketHistoryPage
{
    private static readonly (string? Show, string Title)[] Choices =
        [(null, "Everything"), ("scans", "Scans"), ("quality", "Readings, decisions, remakes"), ("changes", "Changes and prints")];

    private HistoryView? _view;
    private Room? _room;
    private AuditText? _words;

    [Parameter]
    public string Number { get; set; } = "";

    [SupplyParameterFromQuery]
    public string? Show { get; set; }

    [Inject]
    public required TicketHistory History { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required AuditWords Words { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    private IEnumerable<Happening> Shown => _view!.Happenings.Where(h => Fits(h, Show));

    protected override async Task OnParametersSetAsync()
    {
        var read = TrackingNumber.Read(Number);
        _view = read.Kind == NumberKind.Ticket ? await History.FindAsync(read.Number!) : null;
        var room = await Rooms.GetAsync();
        _words = new AuditText(room, Viewer.Units, Words.Named);
        _room = room;
    }

    private static bool Fits(Happening happening, string? show) => show switch
    {
        "scans" => happening.Kind == HappeningKind.Scan,
        "quality" => happening.Kind is HappeningKind.Reading or HappeningKind.Decision or HappeningKind.Remake,
        "changes" => happening.Kind == HappeningKind.Change,
        _ => true,
    };

    private static string KindOf(Happening happening) => happening switch
    {
        { Refused: true } => "Scan, refused",
        { Kind: HappeningKind.Scan } => "Scan",
        { Kind: HappeningKind.Reading } => "Reading",
        { Kind: HappeningKind.Decision } => "Decision",
        { Kind: HappeningKind.Remake } => "Remake",
        _ => "Change",
    };

    private string Say(Happening happening) => happening.Entry is { } entry ? _words!.Sentence(entry) : happening.Sentence;

    private string Where(Happening happening)
    {
        string?[] parts =
        [
            happening.Entry is null && happening.Sheet.Length > 0 ? $"sheet {TrackingNumber.ForPeople(happening.Sheet)}" : null,
            happening.EquipmentId is { } machine ? _room!.EquipmentById(machine)?.Name : happening.Station?.Title(),
            happening.Entry is null ? happening.By : null,
        ];
        return string.Join(" · ", parts.Where(p => !string.IsNullOrEmpty(p)));
    }

    private string Address(string? show) => show is null ? Urls.TicketHistory(Number) : $"{Urls.TicketHistory(Number)}?show={show}";
}

using Microsoft.AspNetCore.Components;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Orders;

/// <summary>Filter, search and page live in the address, so that a list can be bookmarked and sent.</summary>
public sealed partial class OrderListPage
{
    private const int PageSize = 25;

    private List<OrderLine>? _lines;
    private int _total;
    private TimeZoneInfo _zone = TimeZoneInfo.Utc;
    private DateTime _now;

    [Inject]
    public required OrderQueries Queries { get; set; }

    [Inject]
    public required PlanBook Plan { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required NavigationManager Navigation { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    [SupplyParameterFromQuery]
    public bool Done { get; set; }

    [SupplyParameterFromQuery]
    public string? Search { get; set; }

    [SupplyParameterFromQuery(Name = "page")]
    public int AskedPage { get; set; }

    private int Page => Math.Clamp(AskedPage, 1, Math.Max(1, Pages));

    private int Pages => (_total + PageSize - 1) / PageSize;

    protected override async Task OnParametersSetAsync()
    {
        _zone = (await Rooms.GetAsync()).Zone;
        _now = Clock.GetUtcNow().UtcDateTime;
        var skip = (Math.Max(1, AskedPage) - 1) * PageSize;
        (_lines, _total) = await Queries.ListAsync(Done, Search ?? "", skip, PageSize);
    }

    private static string Where(OrderLine line) => line.Remakes == 0 ? Place(line)
        : $"{Place(line)}; {(line.Remakes == 1 ? "1 plate is" : $"{line.Remakes} plates are")} made again, the set waits";

    private static string Place(OrderLine line) => line.State switch
    {
        TicketState.WaitingForFiles => "waits for its separations",
        TicketState.WaitingForLayout => "waits for its layout",
        TicketState.Ready => line.Sheets == 1 ? "1 sheet, not started" : $"{line.Sheets} sheets, not started",
        TicketState.InWork => line.Sheets == 1 ? "in work" : $"in work, {line.SheetsDone} of {line.Sheets} sheets done",
        TicketState.Done => line.Sheets == 1 ? "1 sheet" : $"{line.Sheets} sheets",
        _ => "cancelled",
    };

    private string Address(bool done, int page) => Navigation.GetUriWithQueryParameters(
        new Dictionary<string, object?> { ["done"] = done ? true : null, ["page"] = page > 1 ? page : null });

    private void SearchFor(string? text) =>
        Navigation.NavigateTo(Navigation.GetUriWithQueryParameters(
            new Dictionary<string, object?> { ["search"] = string.IsNullOrWhiteSpace(text) ? null : text.Trim(), ["page"] = null }));

    private void GoTo(int page) => Navigation.NavigateTo(Address(Done, page));
}

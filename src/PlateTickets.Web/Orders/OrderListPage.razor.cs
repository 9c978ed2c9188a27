using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.WebUtilities;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Search;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Orders;

/// <summary>Filter, search and page live in the address, so that a list can be bookmarked and sent.</summary>
public sealed partial class OrderListPage
{
    private const int PageSize = 25;

    private List<OrderLine>? _lines;
    private int _total;
    private int? _older;
    private string _refusal = "";
    private TimeZoneInfo _zone = TimeZoneInfo.Utc;
    private DateTime _now;
    private int _documents;

    [Inject]
    public required DocumentDesk Documents { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required OrderQueries Queries { get; set; }

    [Inject]
    public required TicketSearch Finder { get; set; }

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

    /// <summary>First and last due day of a search, as yyyy-MM-dd.</summary>
    [SupplyParameterFromQuery]
    public string? From { get; set; }

    [SupplyParameterFromQuery]
    public string? To { get; set; }

    /// <summary>A search goes on with what is older than this.</summary>
    [SupplyParameterFromQuery]
    public int? Before { get; set; }

    [SupplyParameterFromQuery(Name = "page")]
    public int AskedPage { get; set; }

    private int Page => Math.Clamp(AskedPage, 1, Math.Max(1, Pages));

    private int Pages => (_total + PageSize - 1) / PageSize;

    protected override async Task OnInitializedAsync() => _documents = Viewer.Can(Right.EnterOrders) ? await Documents.CountWaitingAsync() : 0;

    protected override async Task OnParametersSetAsync()
    {
        _zone = (await Rooms.GetAsync()).Zone;
        _now = Clock.GetUtcNow().UtcDateTime;
        (_refusal, _older) = ("", null);
        var ask = Ask;
        if (ask.IsEmpty)
        {
            (_lines, _total) = await Queries.ListAsync(Done, (Math.Max(1, AskedPage) - 1) * PageSize, PageSize);
            return;
        }

        try
        {
            var found = await Finder.FindAsync(ask, Before, PageSize + 1);
            _older = found.Count > PageSize ? found[PageSize - 1] : null;
            _lines = await Queries.ListAsync([.. found.Take(PageSize)]);
        }
        catch (PlateRoomException refused)
        {
            (_lines, _refusal) = ([], refused.Message);
        }
    }

    /// <summary>A search is over all tickets, whatever their state.</summary>
    private TicketAsk Ask => new(Search ?? "", Day(From), Day(To));

    private static DateOnly? Day(string? text) => DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;

    private static string Where(OrderLine line) => line.Remakes == 0 ? Place(line)
        : $"{Place(line)}; {(line.Remakes == 1 ? "1 plate is" : $"{line.Remakes} plates are")} made again, the set waits";

    private static string Place(OrderLine line) => line.State switch
    {
        TicketState.WaitingForFiles => "waits for its separations",
        TicketState.WaitingForLayout => "waits for its layout",
        TicketState.Ready => line.Sheets == 1 ? "1 sheet, not started" : $"{line.Sheets} sheets, not started",
        TicketState.InWork when line is { Sheets: 1, Places: [var only] } => At(only),
        TicketState.InWork => string.Join("; ", line.Places.Select(p => $"{p.Sheets} {At(p)}").Prepend($"{line.SheetsDone} of {line.Sheets} sheets done")),
        TicketState.Done => line.Sheets == 1 ? "1 sheet" : $"{line.Sheets} sheets",
        _ => "cancelled",
    };

    private static string At(SheetPlace place)
    {
        var station = place.Station?.Title().ToLowerInvariant() ?? "its next stage";
        return place.State switch
        {
            SheetState.Running => $"in {station}",
            SheetState.OnHold => $"on hold, {station} is next",
            _ => place.Sheets == 1 ? $"waits for {station}" : $"wait for {station}",
        };
    }

    /// <summary>What can be said to a customer; null while the plan was not simulated.</summary>
    private string? Sure(OrderLine line) => Plan.Now?.Outlooks.GetValueOrDefault(line.Id) is { } outlook
        ? $"95\u00a0% sure by {SiteClock.Moment(PromiseDesk.Rounded(outlook.Finish.NinetyFive), _zone)}" : null;

    private string Address(bool done, int page) => Navigation.GetUriWithQueryParameters(
        new Dictionary<string, object?> { ["done"] = done ? true : null, ["page"] = page > 1 ? page : null, ["search"] = null, ["from"] = null, ["to"] = null, ["before"] = null });

    private string CsvAddress => QueryHelpers.AddQueryString(
        Urls.OrdersCsv, new Dictionary<string, string?> { ["done"] = Done && Ask.IsEmpty ? "true" : null, ["search"] = Search, ["dueFrom"] = Day(From) is null ? null : From, ["dueTo"] = Day(To) is null ? null : To });

    private void SearchFor(string? text) => AskFor("search", text?.Trim());

    private void AskFor(string name, string? value) =>
        Navigation.NavigateTo(Navigation.GetUriWithQueryParameters(
            new Dictionary<string, object?> { [name] = string.IsNullOrWhiteSpace(value) ? null : value, ["page"] = null, ["before"] = null }));

    private void GoTo(int page) => Navigation.NavigateTo(Address(Done, page));
}

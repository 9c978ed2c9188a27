using System.Globalization;
using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Accounts.Audit;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Audit;

/// <summary>The search lives in the address, so that what was found can be sent to somebody.</summary>
public sealed partial class AuditPage
{
    private const int PageSize = 50;
    private const string DayForm = "yyyy-MM-dd";

    private readonly AuditAsk _ask = new();
    private DateOnly? _from;
    private DateOnly? _to;
    private Room? _room;
    private AuditText? _text;
    private Tickets.Accounts.Audit.AuditPage? _page;
    private AuditFigures? _head;
    private DateTime? _lookedBackTo;
    private string _refusal = "";

    [Inject]
    public required AuditQueries Queries { get; set; }

    [Inject]
    public required AuditWords Words { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required NavigationManager Navigation { get; set; }

    [SupplyParameterFromQuery]
    public string? Who { get; set; }

    [SupplyParameterFromQuery]
    public string? Record { get; set; }

    [SupplyParameterFromQuery]
    public string? Key { get; set; }

    [SupplyParameterFromQuery]
    public string? Field { get; set; }

    [SupplyParameterFromQuery]
    public string? Text { get; set; }

    [SupplyParameterFromQuery]
    public string? From { get; set; }

    [SupplyParameterFromQuery]
    public string? To { get; set; }

    [SupplyParameterFromQuery]
    public long? Before { get; set; }

    private string ExportAddress => Navigation.GetUriWithQueryParameters(Urls.AuditCsv, new Dictionary<string, object?>
    {
        ["who"] = Given(Who),
        ["record"] = Given(Record),
        ["key"] = Given(Key),
        ["field"] = Given(Field),
        ["text"] = Given(Text),
        ["from"] = Start(_from)?.ToString("O", CultureInfo.InvariantCulture),
        ["to"] = Start(_to?.AddDays(1))?.ToString("O", CultureInfo.InvariantCulture),
    });

    protected override async Task OnParametersSetAsync()
    {
        try
        {
            Viewer.Require(Right.ReadAudit);
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
            return;
        }

        _room = await Rooms.GetAsync();
        _text = new AuditText(_room, Viewer.Units, Words.Named);
        (_ask.Who, _ask.Record, _ask.Key, _ask.Field, _ask.Text) = (Who, Record ?? "", Key, Field, Text);
        (_from, _to) = (Day(From), Day(To));
        var filter = _ask.Filter(Start(_from), Start(_to?.AddDays(1)), Words.Fields);
        _head = await Queries.HeadAsync();
        _page = await Queries.PageAsync(filter, Before, PageSize);
        _lookedBackTo = _page.OlderThan is { } older && _page.Entries.Count < PageSize ? await Queries.TimeOfAsync(older) : null;
    }

    private DateTime? Start(DateOnly? day) => day is { } local ? SiteClock.ToUtc(local.ToDateTime(TimeOnly.MinValue), _room!.Zone) : null;

    private static DateOnly? Day(string? text) => DateOnly.TryParseExact(text, DayForm, CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;

    private static string? Given(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();

    private string Address(long? before) => Navigation.GetUriWithQueryParameter("before", before);

    private void Search() => Navigation.NavigateTo(Navigation.GetUriWithQueryParameters(Urls.Audit, new Dictionary<string, object?>
    {
        ["who"] = Given(_ask.Who),
        ["record"] = Given(_ask.Record),
        ["key"] = Given(_ask.Key),
        ["field"] = Given(_ask.Field),
        ["text"] = Given(_ask.Text),
        ["from"] = _from?.ToString(DayForm, CultureInfo.InvariantCulture),
        ["to"] = _to?.ToString(DayForm, CultureInfo.InvariantCulture),
    }));
}

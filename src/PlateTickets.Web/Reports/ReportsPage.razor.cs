using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Reports;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Reports;

/// <summary>The manager's figures. The period lives in the address.</summary>
public sealed partial class ReportsPage
{
    private TimeZoneInfo _zone = TimeZoneInfo.Utc;
    private SitePeriod? _period;
    private RoomReport? _report;
    private string _refusal = "";

    [Inject]
    public required ReportQueries Queries { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required NavigationManager Navigation { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    [SupplyParameterFromQuery]
    public string? From { get; set; }

    [SupplyParameterFromQuery]
    public string? To { get; set; }

    protected override async Task OnParametersSetAsync()
    {
        _refusal = "";
        try
        {
            Viewer.Require(Right.SeeFigures);
            _zone = (await Rooms.GetAsync()).Zone;
            _period = null;
            _period = SitePeriod.Read(From, To, Clock.GetUtcNow().UtcDateTime, _zone);
            _report = await Queries.ReadAsync(_period);
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }
    }

    private string File(string address, string? paper) => Navigation.GetUriWithQueryParameters(
        address, new Dictionary<string, object?> { ["from"] = _period!.FromText, ["to"] = _period.ToText, ["paper"] = paper });
}

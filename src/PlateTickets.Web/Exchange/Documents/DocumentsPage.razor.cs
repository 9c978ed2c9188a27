using System.Globalization;
using System.Xml.Linq;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using Microsoft.Extensions.Options;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Exchange.Messages;
using PlateTickets.Tickets.Exchange.Xjdf;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Exchange.Documents;

/// <summary>Documents of other programs: those that wait for an answer, and what became of the others. It follows what comes.</summary>
public sealed partial class DocumentsPage : IDisposable
{
    private List<ReceivedDocument>? _documents;
    private TimeZoneInfo _zone = TimeZoneInfo.Utc;
    private IReadOnlyList<string> _refusals = [];
    private bool _busy;

    [Inject]
    public required DocumentDesk Desk { get; set; }

    [Inject]
    internal DocumentDoorway Doorway { get; set; } = null!;

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    [Inject]
    public required IOptions<DocumentOptions> Options { get; set; }

    [Inject]
    public required NavigationManager Navigation { get; set; }

    [SupplyParameterFromQuery]
    public bool Done { get; set; }

    private DateTime Now => Clock.GetUtcNow().UtcDateTime;

    public void Dispose() => Desk.Changed -= DocumentsChanged;

    protected override void OnInitialized() => Desk.Changed += DocumentsChanged;

    protected override async Task OnParametersSetAsync()
    {
        _zone = (await Rooms.GetAsync()).Zone;
        _documents = await Desk.ListAsync(!Done);
    }

    private void DocumentsChanged() => InvokeAsync(async () =>
    {
        _documents = await Desk.ListAsync(!Done);
        StateHasChanged();
    });

    private async Task GivenAsync(InputFileChangeEventArgs given)
    {
        Viewer.Require(Right.EnterOrders);
        (_busy, _refusals) = (true, []);
        try
        {
            await using var file = given.File.OpenReadStream(Options.Value.LongestPackage);
            var caller = new XjmfCaller(Viewer.Name, DocumentDoor.Hand, given.File.Name, MayEnter: true, MayChangePlan: Viewer.Can(Right.ChangePlan));
            using var bytes = new MemoryStream(await Doorway.AnswerAsync(file, caller, null, default));
            var answer = XDocument.Load(bytes).Root!;
            if (answer.Descendants(XjdfNames.Ns + "QueueEntry").FirstOrDefault()?.Attribute("QueueEntryID")?.Value is { } entry && await Desk.NewestOfAsync(entry) is { } id)
            {
                Navigation.NavigateTo(Urls.Document(id));
            }
            else
            {
                _refusals = [.. answer.Descendants(XjdfNames.Ns + "Comment").Select(c => c.Value).DefaultIfEmpty(string.Create(CultureInfo.CurrentCulture, $"{given.File.Name} holds no order."))];
            }
        }
        catch (IOException)
        {
            _refusals = [$"{given.File.Name} could not be read to its end, or is longer than {Options.Value.LongestPackage >> 20} MiB: choose it again."];
        }
        finally
        {
            _busy = false;
        }
    }
}

using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Process.Units;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Exchange.Xjdf;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Exchange.Documents;

/// <summary>One document of another program: what the room makes of it, what is asked, what it would change.</summary>
public sealed partial class DocumentPage : IDisposable
{
    private const int MostCustomers = 500;

    private readonly HashSet<string> _agreed = [];
    private Room? _room;
    private DocumentView? _view;
    private List<Customer> _customers = [];
    private string _refusal = "";
    private bool _busy;
    private string _customer = "";
    private int _press;
    private int _cylinder;
    private string _repeat = "";
    private int _material;
    private DateTime? _due;
    private int _copies = 1;
    private bool _remember = true;
    private string _because = "";
    private string _reason = "";

    [Parameter]
    public int Id { get; set; }

    [Inject]
    public required DocumentDesk Desk { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required IDbContextFactory<PlateRoomDb> Databases { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    private bool IsOpen => _view!.Document.State is DocumentState.Held or DocumentState.Taken;

    private bool AsksAboutFiles => _view!.Document is { Purpose: DocumentPurpose.Order, OrderId: not null, FilesOpen: > 0 };

    private bool IsTakenBack => _view!.Document is { Purpose: DocumentPurpose.Order, OrderId: not null, FilesOpen: 0 };

    private bool IsClosedTicket => _view!.Document is { Purpose: DocumentPurpose.Change, Order.Ticket.State: TicketState.Done or TicketState.Cancelled };

    private bool Asks(QuestionKind kind) => _view!.Review.Questions.Any(q => q.Kind == kind);

    private Press? PressNow => _room!.Presses.FirstOrDefault(p => p.Id == (_press != 0 ? _press : _view!.Review.Order.PressId));

    // Until the press is known nobody can ask for its cylinder: it is asked with it.
    private bool NewPressAsks => Asks(QuestionKind.Press) && !Asks(QuestionKind.Cylinder) && PressNow is { } press && !press.Cylinders.Exists(c => c.Name.Equals(_view!.Review.Document.Cylinder, StringComparison.OrdinalIgnoreCase))
        && _view!.Review.Document.RepeatMm.Length == 0;

    private bool CanRemember => Asks(QuestionKind.Customer) || (Asks(QuestionKind.Press) && _view!.Review.Document.Press.Length > 0)
        || (Asks(QuestionKind.Material) && (_view!.Review.Document.Material.Length > 0 || _view.Review.Document.Brand.Length > 0));

    private string AnswerText => _view!.Document.Purpose == DocumentPurpose.Order ? "Enter the order" : _view.Difference?.MakesNewPlates == true ? "Cancel the ticket and make the new one" : "Make the change";

    private string StateText => _view!.Document.State switch
    {
        DocumentState.Taken => "Being looked at",
        DocumentState.Held => "Waits for an answer",
        DocumentState.Done => _view.Document.Purpose == DocumentPurpose.Order ? "Entered" : "Changed",
        _ => "Set aside",
    };

    private string CustomerText => (_view!.Review.Document.CustomerName, _view.Review.Document.CustomerId) switch
    {
        ("", "") => "none",
        (var name, "") => name,
        ("", var id) => $"“{id}” at the sender",
        var (name, id) => $"{name} (“{id}” at the sender)",
    };

    private string PressText
    {
        get
        {
            var (order, press) = (_view!.Review.Order, PressNow);
            return press is null ? Or(_view.Review.Document.Press)
                : press.Cylinders.Find(c => c.Id == order.CylinderId) is { } cylinder ? $"{press.Name}, {cylinder.Name}"
                : order.RepeatMm is { } repeat ? $"{press.Name}, repeat {Viewer.Units.Show(repeat)}"
                : press.Name;
        }
    }

    private string MaterialText => _room!.Materials.TryGetValue(_view!.Review.Order.MaterialId, out var material) ? material.Label(Viewer.Units)
        : _view.Review.Document.Thickness is { } thickness ? string.Create(CultureInfo.InvariantCulture, $"thickness {thickness:0.###} µm") : "none";

    public void Dispose() => Desk.Changed -= DocumentChanged;

    protected override void OnInitialized() => Desk.Changed += DocumentChanged;

    protected override async Task OnParametersSetAsync()
    {
        var room = await Rooms.GetAsync();
        await ReadAsync();
        if (_view is { } view)
        {
            if (Asks(QuestionKind.Customer))
            {
                await using var db = await Databases.CreateDbContextAsync();
                _customers = await db.Customers.AsNoTracking().OrderBy(c => c.Name).Take(MostCustomers).ToListAsync();
            }

            _customer = view.Review.Document.CustomerName;
            _copies = Math.Max(1, view.Review.Order.Copies);
            _material = view.Review.Order.MaterialId;
        }

        _room = room;
    }

    private static string Or(string text) => text.Length == 0 ? "none" : text;

    private string FileText(DocumentPlate plate) => _view!.Files.FirstOrDefault(f => f.Url == plate.FileUrl) is { } file ? $"{file.FileName}, {file.Bytes / 1024.0:N0} kB"
        : _view.Document.Order is not null && _view.Document.FilesOpen == 0 && plate.FileUrl.Length > 0 ? plate.FileUrl
        : "follows";

    private void Agree(string key)
    {
        if (!_agreed.Remove(key))
        {
            _agreed.Add(key);
        }
    }

    private void PressChosen(ChangeEventArgs chosen) => (_press, _cylinder) = (int.Parse((string)chosen.Value!, CultureInfo.InvariantCulture), 0);

    private Task AnswerAsync() => TryAsync(async () =>
    {
        var answers = Answers();
        await Desk.AnswerAsync(Id, answers, _remember && CanRemember, Viewer.Name);
    });

    private DocumentAnswers Answers()
    {
        var answers = _view!.Text.Answers;
        if (Asks(QuestionKind.Customer) && _customer.Trim() is { Length: > 0 } name)
        {
            var known = _customers.Find(c => c.Name.Equals(name, StringComparison.OrdinalIgnoreCase));
            answers = answers with { CustomerId = known?.Id, NewCustomer = known is null ? name : "" };
        }

        answers = answers with
        {
            PressId = Asks(QuestionKind.Press) && _press != 0 ? _press : answers.PressId,
            MaterialId = Asks(QuestionKind.Material) && _material != 0 ? _material : answers.MaterialId,
            Copies = Asks(QuestionKind.Copies) ? _copies : answers.Copies,
            DueUtc = Asks(QuestionKind.Due) && _due is { } due ? DueUtc(due) : answers.DueUtc,
            Agreed = [.. answers.Agreed.Union(_agreed), .. _view.Difference is { Changes.Count: > 0 } ? [DocumentDesk.ChangeKey] : Array.Empty<string>()],
        };
        if (Asks(QuestionKind.Cylinder) || NewPressAsks)
        {
            answers = _cylinder != 0 ? answers with { CylinderId = _cylinder, RepeatMm = null }
                : _repeat.Trim().Length > 0 ? answers with { CylinderId = null, RepeatMm = Repeat() }
                : answers;
        }

        return answers;
    }

    private double Repeat() => double.TryParse(_repeat.Trim().Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var mm)
        ? mm
        : throw new PlateRoomException($"The repeat “{_repeat.Trim()}” is no number of millimetres such as 571.5.");

    private DateTime DueUtc(DateTime local) => _room!.Zone.IsInvalidTime(local)
        ? throw new PlateRoomException("That time does not exist: the clocks go forward over it. Choose an earlier or a later one.")
        : SiteClock.ToUtc(DateTime.SpecifyKind(local, DateTimeKind.Unspecified), _room.Zone);

    private Task AcceptFilesAsync() => TryAsync(() => _because.Trim().Length == 0
        ? throw new PlateRoomException("Say why the files are right: whoever makes the plates may ask.")
        : Desk.AnswerAsync(Id, _view!.Text.Answers with { FilesAccepted = _because.Trim() }, false, Viewer.Name));

    private Task LeaveFilesAsync() => TryAsync(() => Desk.AnswerAsync(Id, _view!.Text.Answers with { WithoutFiles = true }, false, Viewer.Name));

    private Task EnterAnewAsync() => TryAsync(() => Desk.EnterAnewAsync(Id, Viewer.Name));

    private Task GoOnAsync() => TryAsync(() => Desk.GoOnFromHoldAsync(Id, Viewer.Name));

    private Task SetAsideAsync() => TryAsync(() => Desk.SetAsideAsync(Id, _reason, Viewer.Name));

    private void DocumentChanged() => InvokeAsync(async () =>
    {
        await ReadAsync();
        StateHasChanged();
    });

    private async Task ReadAsync() => _view = await Desk.FindAsync(Id);

    private async Task TryAsync(Func<Task> work)
    {
        (_busy, _refusal) = (true, "");
        try
        {
            Viewer.Require(Right.EnterOrders);
            await work();
            await ReadAsync();
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }
        catch (OrderRefusedException refused)
        {
            _refusal = string.Join(" ", refused.Errors.Values);
        }
        finally
        {
            _busy = false;
        }
    }
}

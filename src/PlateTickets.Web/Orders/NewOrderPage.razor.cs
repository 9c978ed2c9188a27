using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Nesting;
using PlateTickets.Process;
using PlateTickets.Process.Units;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Arrivals;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Orders;

/// <summary>The CSR's page: an order in a minute, from the files themselves.</summary>
public sealed partial class NewOrderPage
{
    private static readonly CultureInfo English = CultureInfo.GetCultureInfo("en-GB");

    private OrderForm _form = new();
    private readonly Dictionary<string, string> _errors = [];
    private Room? _room;
    private SeparationDrop? _drop;
    private string? _preview;
    private IReadOnlyList<AskedSheet> _sheets = [];
    private IReadOnlyList<EarlierJob> _earlier = [];
    private HashSet<string> _asked = [];
    private OrderDraft? _takenUp;
    private string? _kept;
    private List<Customer> _found = [];
    private bool _asksForDraft = true;
    private bool _keeps;
    private bool _arrivedAdded;
    private bool _saving;
    private DateTime _today;

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required OrderEntry Entry { get; set; }

    [Inject]
    public required LayoutDesk Layouts { get; set; }

    [Inject]
    public required OrderQueries Queries { get; set; }

    [Inject]
    public required ArrivalDesk Arrivals { get; set; }

    /// <summary>A file of the list of arrived files to begin with; 0 for none.</summary>
    [SupplyParameterFromQuery(Name = "file")]
    public int ArrivedFile { get; set; }

    [Inject]
    public required IDbContextFactory<PlateRoomDb> Databases { get; set; }

    [Inject]
    public required NavigationManager Navigation { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    [Inject]
    public required BrowserTools Browser { get; set; }

    // Of one person: a browser may be another's next.
    private string Draft => $"new order {Viewer.Name}";

    private double? RepeatMm => _form.Cylinder?.RepeatUm / 1000.0 ?? _form.RepeatMm;

    private string CustomerHint => _form.CustomerText.Trim() is { Length: > 0 } name && _form.Customer is null && _found.Called(name) is null ? "A new customer: the name is added to the list." : "";

    private string CylinderHint => _form.Press is not null && _form.Cylinder is null ? "No cylinder: give the repeat below." : "";

    private string MaterialHint => _form.Press is { } press && _form.MaterialId != press.UsualMaterialId ? $"Not the usual material of {press.Name}." : "";

    private string SaveText => _saving ? "Saving …" : _drop is { Files.Count: > 0 } ? "Save and make the ticket" : "Save, files follow";

    /// <summary>The distortion that the files must have, in one line.</summary>
    private string? Distortion
    {
        get
        {
            if (_room is null || RepeatMm is not { } repeat || !_room.Materials.TryGetValue(_form.MaterialId, out var material))
            {
                return null;
            }

            try
            {
                return LengthAdvice.Expected(repeat, material, Viewer.Units);
            }
            catch (PlateRoomException refused)
            {
                return refused.Message;
            }
        }
    }

    protected override async Task OnInitializedAsync()
    {
        _room = await Rooms.GetAsync();
        var local = SiteClock.Local(Clock.GetUtcNow().UtcDateTime, _room.Zone);
        _today = local.Date;
        _form.DueDate = local.Date.AddDays(1);
    }

    private async Task<IEnumerable<Customer>> FindCustomers(string? text, CancellationToken cancel)
    {
        await using var db = await Databases.CreateDbContextAsync(cancel);
        var customers = db.Customers.AsNoTracking();
        if (!string.IsNullOrWhiteSpace(text))
        {
            customers = customers.WithInName(text.Trim());
        }

        return _found = await customers.OrderBy(c => c.Name).Take(12).ToListAsync(cancel);
    }

    private Task PressChosen(Press? press)
    {
        _form.ChoosePress(press);
        return PreviewAsync();
    }

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (_room is not { Presses.Count: > 0 } room)
        {
            return;
        }

        if (_asksForDraft)
        {
            await TakeUpAsync(room);
        }
        else if (_keeps && OrderDraft.Write(_form, _drop?.Files.Select(f => f.Name) ?? []) is var entered && entered != _kept)
        {
            _kept = entered;
            await Browser.KeepFormAsync(Draft, entered);
        }

        if (ArrivedFile != 0 && !_arrivedAdded && _drop is not null)
        {
            _arrivedAdded = true;
            if (await Arrivals.FindOpenAsync(ArrivedFile) is { } file)
            {
                await _drop.AddArrivedAsync(file.Id, file.FileName, file.FileBytes);
            }
            else
            {
                _errors["file"] = "The arrived file is not waiting any more: somebody gave it to a ticket or set it aside.";
                StateHasChanged();
            }
        }
    }

    /// <summary>Puts what this tab kept into the form, after the server or the connection was lost.</summary>
    private async Task TakeUpAsync(Room room)
    {
        if (OrderDraft.Read(await Browser.FormAsync(Draft)) is { } kept)
        {
            var customer = (await FindCustomers(kept.Customer, CancellationToken.None)).ToList().Called(kept.Customer.Trim());
            (_form, _takenUp) = (kept.ToForm(room, customer, _today.AddDays(1)), kept);
        }

        // Only now the form is shown: what is typed into it must not be taken for what was kept before.
        (_asksForDraft, _keeps) = (false, true);
        StateHasChanged();
    }

    private void BeginAnew() => (_form, _takenUp) = (new OrderForm { DueDate = _today.AddDays(1) }, null);

    private async Task LeaveAsync()
    {
        await ForgetDraftAsync();
        Navigation.NavigateTo(Urls.Orders);
    }

    private ValueTask ForgetDraftAsync()
    {
        _keeps = false;
        return Browser.KeepFormAsync(Draft, null);
    }

    private async Task FilesChanged()
    {
        _errors.Clear();
        await PreviewAsync();
        var hashes = _drop!.Separations.Select(s => s.Sha256).ToHashSet();
        if (!hashes.SetEquals(_asked))
        {
            _asked = hashes;
            _earlier = await Queries.EarlierAsync(hashes);
        }
    }

    private Task FillFrom(EarlierJob job)
    {
        _form.FillFrom(job, _room!);
        return PreviewAsync();
    }

    private async Task PreviewAsync()
    {
        _preview = null;
        _sheets = [];
        if (_room is null || _drop is not { AllGood: true, Files.Count: > 0 } || _form.MaterialId == 0)
        {
            return;
        }

        var plates = _drop.Separations
            .SelectMany(s => Enumerable.Repeat(s.Facts, Math.Clamp(_form.Copies, 1, OrderRules.MostCopies)))
            .Select((f, i) => new NestPlate(i, SeparationRules.Micrometres(f.WidthMm), SeparationRules.Micrometres(f.HeightMm)))
            .ToList();
        var (room, material) = (_room, _form.MaterialId);
        var shelf = await Layouts.ShelfAsync(material, plates.Count);
        var layout = shelf.Lay(plates, room.NestRules);
        // Something else may have been chosen meanwhile: the newer preview counts.
        if (material == _form.MaterialId)
        {
            _sheets = [.. layout.Sheets.Select(s => AskedSheet.Of(shelf.AsMade(room, s)))];
            _preview = LayoutPreview.Describe(layout, plates.Count, Viewer.Units);
        }
    }

    private void UseDue(DateTime dueUtc)
    {
        var local = SiteClock.Local(dueUtc, _room!.Zone);
        (_form.DueDate, _form.DueTime) = (local.Date, local.ToString("HH:mm", CultureInfo.InvariantCulture));
        _errors.Remove(nameof(NewOrder.DueUtc));
    }

    private async Task SaveAsync(bool together)
    {
        _errors.Clear();
        if (_form.ToOrder(_room!, _errors) is not { } order)
        {
            return;
        }

        if (_drop is { AllGood: false })
        {
            _errors["files"] = "Some separations are still being read or cannot be used: wait, correct the colour, or leave them out.";
            return;
        }

        _saving = true;
        try
        {
            var number = await Entry.EnterAsync(order, _drop?.Separations ?? [], Viewer.Name, together: together);
            foreach (var arrived in _drop?.Files.Where(f => f.ArrivedId != 0) ?? [])
            {
                await Arrivals.UsedAsync(arrived.ArrivedId, number, Viewer.Name);
            }

            await ForgetDraftAsync();
            Navigation.NavigateTo(Urls.Ticket(number));
        }
        catch (OrderRefusedException refused)
        {
            foreach (var (field, sentence) in refused.Errors)
            {
                _errors[field] = sentence;
            }
        }
        catch (PlateRoomException refused)
        {
            _errors["order"] = refused.Message;
        }
        finally
        {
            _saving = false;
        }
    }

    private bool Has(string field) => _errors.ContainsKey(field);

    private string Error(string field) => _errors.GetValueOrDefault(field, "");

    private string MaterialText(int id) => _room!.Materials.TryGetValue(id, out var material) ? material.Label(Viewer.Units) : "";

    private string CylinderText(Cylinder cylinder) =>
        $"{cylinder.Name} · repeat {Viewer.Units.Show(cylinder.RepeatUm / 1000.0, 3)}";
}

using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Lists;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Orders;

/// <summary>A CSV file is looked at, corrected in how it is read, and entered as a whole.</summary>
public sealed partial class ImportPage
{
    private const int RowsShown = 200;

    private string _name = "";
    private string? _text;
    private ListReading _how = new();
    private OrderImportView? _view;
    private string _refusal = "";
    private bool _twinsMeant;
    private bool _busy;
    private IReadOnlyList<string> _entered = [];
    private TimeZoneInfo? _zone;

    [Inject]
    public required OrderImport Import { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    protected override async Task OnInitializedAsync() => _zone = (await Rooms.GetAsync()).Zone;

    private static string Text(ChangeEventArgs e) => e.Value as string ?? "";

    private static string Found(OrderImportView view, int wrong) => (view.Rows.Count, wrong) switch
    {
        (1, 0) => "1 order, and nothing is wrong with it.",
        (var rows, 0) => $"{rows} orders, and nothing is wrong with them.",
        (var rows, 1) => $"1 of {rows} rows cannot be taken. Nothing can be entered before it is right: correct the file and choose it again.",
        var (rows, _) => $"{wrong} of {rows} rows cannot be taken. Nothing can be entered before they are right: correct the file and choose it again.",
    };

    private static IEnumerable<ImportRow> Shown(OrderImportView view) =>
        view.Rows.Count <= RowsShown ? view.Rows : view.Rows.OrderBy(r => r.Order is not null).ThenBy(r => r.Twin is null).ThenBy(r => r.Line).Take(RowsShown);

    private static string Repeat(NamedOrder? order) => order switch
    {
        { Cylinder: { } cylinder } => cylinder,
        { RepeatMm: { } mm } => $"repeat {mm.ToString("0.###", CultureInfo.InvariantCulture)} mm",
        _ => "",
    };

    private async Task ChosenAsync(InputFileChangeEventArgs chosen)
    {
        (_name, _text, _view, _entered) = (chosen.File.Name, null, null, []);
        await TryAsync(async () =>
        {
            if (chosen.File.Size > OrderImport.MostBytes)
            {
                throw new PlateRoomException($"{chosen.File.Name} has {chosen.File.Size >> 20} MiB; a list of {OrderList.MostRows} orders takes less than {OrderImport.MostBytes >> 20}. It is another file.");
            }

            await using var file = chosen.File.OpenReadStream(OrderImport.MostBytes);
            _text = await OrderImport.TextAsync(file);
            await LookAsync(ListReading.Propose(_text));
        });
    }

    private Task ReadAsync(ListReading how) => TryAsync(() => LookAsync(how));

    private async Task LookAsync(ListReading how)
    {
        (_how, _twinsMeant) = (how, false);
        _view = await Import.LookAsync(_text!, how);
    }

    private Task EnterAsync() => TryAsync(async () =>
    {
        Viewer.Require(Right.EnterOrders);
        _entered = await Import.EnterAsync(_view!, Viewer.Name);
        (_text, _view) = (null, null);
    });

    private async Task TryAsync(Func<Task> work)
    {
        if (_busy)
        {
            return;
        }

        (_busy, _refusal) = (true, "");
        try
        {
            await work();
        }
        catch (OrderRefusedException refused)
        {
            _refusal = string.Join(" ", refused.Errors.Select(e => $"{e.Key}: {e.Value}"));
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }
        catch (IOException)
        {
            _refusal = "The file could not be read to its end: choose it again.";
        }
        finally
        {
            _busy = false;
        }
    }
}

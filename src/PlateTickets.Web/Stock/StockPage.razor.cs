using System.Globalization;
using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stock;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Stock;

/// <summary>What lies on the shelf, what is warned of, and deliveries.</summary>
public sealed partial class StockPage
{

    private Room? _room;
    private IReadOnlyList<MaterialStock>? _stock;
    private int _size;
    private string _lot = "";
    private int _sheets = 10;
    private DateOnly? _expires;
    private int? _counting;
    private int _counted;
    private int? _throwing;
    private string _why = "";
    private string _told = "";
    private string _refusal = "";

    [Inject]
    public required StockDesk Desk { get; set; }

    [Inject]
    public required StockQueries Queries { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    private DateTime Now => Clock.GetUtcNow().UtcDateTime;

    protected override async Task OnInitializedAsync()
    {
        await ReadAsync();
        _size = _stock!.SelectMany(m => m.Sizes).FirstOrDefault()?.Size.Id ?? 0;
    }

    private async Task ReadAsync()
    {
        _room = await Rooms.GetAsync();
        _stock = await Queries.ReadAsync();
    }

    private Task ReceiveAsync() => DoAsync($"{_sheets} {(_sheets == 1 ? "sheet" : "sheets")} of lot {_lot.Trim()} booked in.", async () =>
    {
        await Desk.ReceiveAsync(_size, _lot, _sheets, _expires, Viewer.Name);
        (_lot, _sheets, _expires) = ("", 10, null);
    });

    private Task CountAsync(StockLot lot) => DoAsync($"Lot {lot.Lot} has {_counted} free {(_counted == 1 ? "sheet" : "sheets")} now.", async () =>
    {
        await Desk.CountAsync(lot.Id, _counted, Viewer.Name);
        _counting = null;
    });

    private Task SetLeastAsync(StockSize size, string? text) => DoAsync("The least level is kept.", () =>
        int.TryParse(text, NumberStyles.Integer, CultureInfo.InvariantCulture, out var least)
            ? Desk.SetLeastAsync(size.Id, least, Viewer.Name)
            : throw new PlateRoomException("Type the least level as a whole number of sheets."));

    private Task ThrowAwayAsync(Remnant remnant) => DoAsync($"Remnant {remnant.Mark} is off the shelf.", async () =>
    {
        await Desk.ThrowAwayAsync(remnant.Id, _why, Viewer.Name);
        _throwing = null;
    });

    private async Task DoAsync(string told, Func<Task> step)
    {
        (_told, _refusal) = ("", "");
        try
        {
            Viewer.Require(Right.KeepStock);
            await step();
            _told = told;
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }

        await ReadAsync();
    }

    private string SizeText(StockSize size) => Viewer.Units.Size(size.WidthUm / 1000.0, size.LengthUm / 1000.0);
}

using System.Text;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Orders.Lists;

/// <summary>A row of a list, as an order or with what is wrong.</summary>
/// <param name="Line">In the file, from 1.</param>
/// <param name="Named">What the row says, as far as it could be read.</param>
/// <param name="Order">The order; null when something is wrong.</param>
/// <param name="Troubles">Column ("" for the row) and sentence.</param>
/// <param name="NewCustomer">The customer's name is not known yet.</param>
/// <param name="Twin">Where the same order stands already: an order's number or a line of the file, in words; null for none.</param>
public sealed record ImportRow(int Line, NamedOrder? Named, NewOrder? Order, IReadOnlyDictionary<string, string> Troubles, bool NewCustomer, string? Twin);

/// <summary>A list of orders that was looked at; nothing is entered yet.</summary>
public sealed record OrderImportView(IReadOnlyList<ImportRow> Rows, IReadOnlyList<string> Unread, CsvTrouble? Refusal)
{
    public bool IsGood => Refusal is null && Rows.All(r => r.Order is not null);

    public int Twins => Rows.Count(r => r.Twin is not null);

    /// <summary>Every trouble in a sentence: "line 3, due" and what is wrong.</summary>
    public IReadOnlyDictionary<string, string> Troubles => Refusal is { } whole
        ? new Dictionary<string, string> { [$"line {whole.Line}"] = whole.Sentence }
        : Rows.SelectMany(r => r.Troubles.Select(t => (Key: t.Key.Length == 0 ? $"line {r.Line}" : $"line {r.Line}, {t.Key}", t.Value))).ToDictionary(t => t.Key, t => t.Value);
}

/// <summary>Takes orders in from a list, all or none.</summary>
public sealed class OrderImport(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, OrderEntry entry, TimeProvider clock)
{
    /// <summary>Longest file that is taken, in bytes.</summary>
    public const int MostBytes = 2 << 20;

    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>The text of a file: UTF-8 with or without a byte order mark, or UTF-16 with one.</summary>
    /// <exception cref="PlateRoomException">It is too long, or in another encoding.</exception>
    public static async Task<string> TextAsync(Stream file, CancellationToken cancel = default)
    {
        using var bytes = new MemoryStream();
        var buffer = new byte[64 * 1024];
        while (await file.ReadAsync(buffer, cancel) is var read and > 0)
        {
            if (bytes.Length + read > MostBytes)
            {
                throw new PlateRoomException($"The file is longer than {MostBytes >> 20} MiB: a list of {OrderList.MostRows} orders takes less. It is another file.");
            }

            bytes.Write(buffer, 0, read);
        }

        bytes.Position = 0;
        try
        {
            using var reader = new StreamReader(bytes, Strict, detectEncodingFromByteOrderMarks: true);
            return await reader.ReadToEndAsync(cancel);
        }
        catch (DecoderFallbackException)
        {
            throw new PlateRoomException("The file is not in UTF-8: save it as “CSV UTF-8”, or letters such as ü would come out wrong.");
        }
    }

    /// <summary>Reads a list and says row by row what would be entered, or what is wrong.</summary>
    public async Task<OrderImportView> LookAsync(string text, ListReading how, CancellationToken cancel = default)
    {
        var list = OrderList.Read(text, how.Separator);
        if (list.Refusal is not null)
        {
            return new([], [], list.Refusal);
        }

        var room = await rooms.GetAsync(cancel);
        var now = clock.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var names = list.Rows.Select(r => r.Cells.GetValueOrDefault(OrderList.Customer)).OfType<string>().Distinct().ToList();
        var customers = await db.Customers.AsNoTracking().Where(c => names.Contains(c.Name)).ToDictionaryAsync(c => c.Name, c => c.Id, cancel);
        var rows = list.Rows.Select(r => Look(r, how, room, customers, now)).ToList();
        return new(await TwinsAsync(db, rows, cancel), list.Unread, null);
    }

    /// <summary>Enters every order of a list that was looked at, in the order of the file; their tickets wait for their files.</summary>
    /// <returns>The numbers of the orders.</returns>
    /// <exception cref="OrderRefusedException">With every mistake by line and column; nothing was saved.</exception>
    public async Task<IReadOnlyList<string>> EnterAsync(OrderImportView view, string by, CallKey? call = null, CancellationToken cancel = default)
    {
        if (!view.IsGood)
        {
            throw new OrderRefusedException(view.Troubles);
        }

        var rows = view.Rows;
        return await entry.EnterAllAsync([.. rows.Select(r => r.Order!)], i => $"line {rows[i].Line}", by, call, cancel);
    }

    private static ImportRow Look(ListRow row, ListReading how, Room room, Dictionary<string, int> customers, DateTime now)
    {
        if (row.Trouble is { } whole)
        {
            return new(row.Line, null, null, new Dictionary<string, string> { [""] = whole }, false, null);
        }

        var troubles = new Dictionary<string, string>();
        var named = OrderRows.Read(row.Cells, how, room.Zone, troubles);
        var errors = new Dictionary<string, string>();
        var order = named.Resolve(room, customers, errors);
        foreach (var (field, sentence) in order is null ? errors : OrderRules.Check(order, room, now))
        {
            var column = NamedOrder.FieldName(field);
            // A repeat that could not be read is no missing cylinder; a mistake of the row's own list is said first.
            if (!(column == OrderList.Cylinder && troubles.ContainsKey(OrderList.Repeat)))
            {
                troubles.TryAdd(column, Said(column, sentence));
            }
        }

        return new(row.Line, named, troubles.Count == 0 ? order : null, troubles, named.Customer.Length > 0 && !customers.ContainsKey(named.Customer), null);
    }

    // The rules speak to somebody before a form.
    private static string Said(string column, string sentence) => (column, sentence) switch
    {
        (OrderList.Customer, _) => "The customer is missing.",
        (OrderList.Cylinder, _) when sentence.StartsWith("Choose", StringComparison.Ordinal) => "Give the cylinder, or the repeat in mm (above 0, below 5000).",
        _ => sentence,
    };

    /// <summary>Marks rows that are in the room already, or twice in the file.</summary>
    private static async Task<IReadOnlyList<ImportRow>> TwinsAsync(PlateRoomDb db, List<ImportRow> rows, CancellationToken cancel)
    {
        var customers = rows.Where(r => r.Order is { CustomerId: not 0 }).Select(r => r.Order!.CustomerId).Distinct().ToList();
        var dues = rows.Where(r => r.Order is not null).Select(r => r.Order!.DueUtc).Distinct().ToList();
        var known = (await db.Orders.AsNoTracking()
                .Where(o => dues.Contains(o.DueUtc) && customers.Contains(o.CustomerId) && o.Ticket!.State != TicketState.Cancelled)
                .Select(o => new { o.Number, o.CustomerId, o.Title, o.DueUtc }).ToListAsync(cancel))
            .ToLookup(o => (o.CustomerId, o.Title.ToUpperInvariant(), o.DueUtc), o => o.Number);
        var seen = new Dictionary<NewOrder, int>();
        return
        [
            .. rows.Select(row =>
            {
                if (row.Order is not { } order)
                {
                    return row;
                }

                var number = known[(order.CustomerId, order.Title.Trim().ToUpperInvariant(), order.DueUtc)].FirstOrDefault();
                var twin = number is not null ? $"order {TrackingNumber.ForPeople(number)}" : seen.TryGetValue(order, out var line) ? $"line {line}" : null;
                seen.TryAdd(order, row.Line);
                return row with { Twin = twin };
            }),
        ];
    }
}

using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Nesting;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Orders.Lists;
using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stock;

namespace PlateTickets.Tickets.Orders;

/// <summary>Takes orders and their separations in, and makes the ticket's plates and sheets.</summary>
public sealed class OrderEntry(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, RoomEvents events, TimeProvider clock)
{
    /// <summary>
    /// Saves the order with its separations. With <paramref name="layOut"/> the plates go onto sheets at once, or wait to be laid
    /// out <paramref name="together"/> with those of other tickets; without separations the ticket waits for its files. When
    /// there are not enough sheets the plates wait too.
    /// </summary>
    /// <returns>The number of the order and its ticket.</returns>
    /// <exception cref="OrderRefusedException">With every mistake; nothing was saved.</exception>
    public Task<string> EnterAsync(
        NewOrder order, IReadOnlyList<ReadSeparation> separations, string by, bool layOut = true, bool together = false, CallKey? call = null, CancellationToken cancel = default) =>
        EnterAsync(order, separations, by, layOut, together, call, null, cancel);

    /// <summary>The same; <paramref name="also"/> changes more in the same transaction, when the order has its id.</summary>
    internal async Task<string> EnterAsync(
        NewOrder order, IReadOnlyList<ReadSeparation> separations, string by, bool layOut, bool together, CallKey? call, Func<PlateRoomDb, Order, Task>? also, CancellationToken cancel)
    {
        var room = await rooms.GetAsync(cancel);
        var now = clock.GetUtcNow().UtcDateTime;
        var errors = OrderRules.Check(order, room, now);
        if (errors.Count == 0)
        {
            SeparationRules.Check(separations, [], order.Copies, OrderRules.RepeatUm(order, room) / 1000.0, OrderRules.MaterialId(order, room), room, errors);
        }

        if (errors.Count > 0)
        {
            throw new OrderRefusedException(errors);
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        await using var transaction = await db.BeginWriteAsync(cancel);
        var saved = await AddOrderAsync(db, order, room, by, now, cancel);
        AddSeparations(db, saved, separations, room);
        await db.SaveChangesAsync(cancel);
        await IdempotentCalls.KeepAsync(db, call, saved.Number, now, cancel);
        if (also is not null)
        {
            await also(db, saved);
            await db.SaveChangesAsync(cancel);
        }

        var sheets = layOut ? await LayOutAsync(db, room, saved, together, now, cancel) : [];
        await transaction.CommitAsync(cancel);
        Tell(sheets);
        return saved.Number;
    }

    /// <summary>Saves many orders at once, all or none; their tickets wait for their files.</summary>
    /// <param name="orders">In this order they get their numbers.</param>
    /// <param name="place">Where an order stands, for a sentence about it: "line 3".</param>
    /// <param name="by">Who.</param>
    /// <param name="call">Of a program that may call again.</param>
    /// <param name="cancel">Cancels.</param>
    /// <returns>The numbers.</returns>
    /// <exception cref="OrderRefusedException">With every mistake by place and field; nothing was saved.</exception>
    public async Task<IReadOnlyList<string>> EnterAllAsync(
        IReadOnlyList<NewOrder> orders, Func<int, string> place, string by, CallKey? call = null, CancellationToken cancel = default)
    {
        var room = await rooms.GetAsync(cancel);
        var now = clock.GetUtcNow().UtcDateTime;
        var errors = orders.Index().SelectMany(o => OrderRules.Check(o.Item, room, now).Select(e => ($"{place(o.Index)}, {NamedOrder.FieldName(e.Key)}", e.Value))).ToDictionary();
        if (errors.Count > 0)
        {
            throw new OrderRefusedException(errors);
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        await using var transaction = await db.BeginWriteAsync(cancel);
        var numbers = await db.NumberSequences.SingleAsync(s => s.Kind == NumberKind.Ticket, cancel);
        var customers = await CustomersAsync(db, orders, cancel);
        var saved = orders.Select(o => Add(db, o, customers, numbers, room, by, now).Number).ToList();
        await db.SaveChangesAsync(cancel);
        await IdempotentCalls.KeepAsync(db, call, string.Join(' ', saved), now, cancel);
        await transaction.CommitAsync(cancel);
        return saved;
    }

    /// <summary>Orders a job again from what is known of its separations; no file is needed.</summary>
    /// <param name="number">The earlier ticket.</param>
    /// <param name="dueUtc">When the new plates are due.</param>
    /// <param name="copies">Plates of each colour.</param>
    /// <param name="by">Who.</param>
    /// <param name="cancel">Cancels.</param>
    /// <returns>The number of the new order and its ticket.</returns>
    /// <exception cref="PlateRoomException">There is no such ticket, or it has no separations.</exception>
    /// <exception cref="OrderRefusedException">The due time or the number of copies is wrong, or the press or material can no longer be used.</exception>
    public async Task<string> RepeatAsync(string number, DateTime dueUtc, int copies, string by, CancellationToken cancel = default)
    {
        var room = await rooms.GetAsync(cancel);
        var now = clock.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        await using var transaction = await db.BeginWriteAsync(cancel);
        var earlier = await db.Orders.AsNoTracking().Include(o => o.Ticket!.Separations).SingleOrDefaultAsync(o => o.Number == number, cancel)
            ?? throw new PlateRoomException($"There is no order {TrackingNumber.ForPeople(number)}.");
        if (earlier.Ticket!.Separations.Count == 0)
        {
            throw new PlateRoomException($"Ticket {TrackingNumber.ForPeople(number)} has no separations: enter a new order with the files.");
        }

        var order = new NewOrder
        {
            CustomerId = earlier.CustomerId,
            Title = earlier.Title,
            PressId = earlier.PressId,
            RepeatMm = earlier.RepeatUm / 1000.0,
            MaterialId = earlier.MaterialId,
            DueUtc = dueUtc,
            Copies = copies,
        };
        var errors = OrderRules.Check(order, room, now);
        SeparationRules.CheckPlates(copies * earlier.Ticket.Separations.Count, errors);

        if (errors.Count > 0)
        {
            throw new OrderRefusedException(errors);
        }

        var saved = await AddOrderAsync(db, order, room, by, now, cancel);
        var ids = earlier.Ticket.Separations.ConvertAll(s => s.Id);
        var previews = await db.SeparationPreviews.AsNoTracking().Where(p => ids.Contains(p.SeparationId)).ToDictionaryAsync(p => p.SeparationId, p => p.Png, cancel);
        foreach (var separation in earlier.Ticket.Separations.OrderBy(s => s.Id))
        {
            var again = separation.Again();
            saved.Ticket!.Separations.Add(again);
            if (previews.TryGetValue(separation.Id, out var png))
            {
                db.SeparationPreviews.Add(new SeparationPreview { Separation = again, Png = png });
            }

            AddPlates(saved, again);
        }

        db.Note(nameof(Order), saved.Number, "ordered again", $"from ticket {number}");
        await db.SaveChangesAsync(cancel);
        var sheets = await LayOutAsync(db, room, saved, together: false, now, cancel);
        await transaction.CommitAsync(cancel);
        Tell(sheets);
        return saved.Number;
    }

    /// <summary>Adds separations to a ticket that waits for files.</summary>
    /// <exception cref="OrderRefusedException">With every mistake; nothing was saved.</exception>
    public async Task AddSeparationsAsync(
        string number, IReadOnlyList<ReadSeparation> separations, string by, bool layOut = true, bool together = false, CallKey? call = null, CancellationToken cancel = default)
    {
        var room = await rooms.GetAsync(cancel);
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        await using var transaction = await db.BeginWriteAsync(cancel);
        var order = await db.Orders
            .Include(o => o.Ticket!.Separations).Include(o => o.Ticket!.Plates).AsSplitQuery()
            .SingleOrDefaultAsync(o => o.Number == number, cancel)
            ?? throw new PlateRoomException($"There is no order {TrackingNumber.ForPeople(number)}.");
        var ticket = order.Ticket!;
        if (ticket.State != TicketState.WaitingForFiles)
        {
            throw new PlateRoomException(
                $"Ticket {TrackingNumber.ForPeople(number)} is laid out already: separations can only be added while it waits for its files.");
        }

        var errors = new Dictionary<string, string>();
        SeparationRules.Check(separations, ticket.Separations, order.Copies, order.RepeatUm / 1000.0, order.MaterialId, room, errors);
        if (errors.Count > 0)
        {
            throw new OrderRefusedException(errors);
        }

        AddSeparations(db, order, separations, room);
        await db.SaveChangesAsync(cancel);
        await IdempotentCalls.KeepAsync(db, call, number, clock.GetUtcNow().UtcDateTime, cancel);
        var sheets = layOut ? await LayOutAsync(db, room, order, together, clock.GetUtcNow().UtcDateTime, cancel) : [];
        await transaction.CommitAsync(cancel);
        Tell(sheets);
    }

    private static async Task<Order> AddOrderAsync(PlateRoomDb db, NewOrder order, Room room, string by, DateTime now, CancellationToken cancel) => Add(
        db, order, await CustomersAsync(db, [order], cancel), await db.NumberSequences.SingleAsync(s => s.Kind == NumberKind.Ticket, cancel), room, by, now);

    private static Order Add(PlateRoomDb db, NewOrder order, Customers customers, NumberSequence numbers, Room room, string by, DateTime now)
    {
        var saved = new Order
        {
            Number = numbers.Take(),
            Customer = customers.Of(order),
            Title = order.Title.Trim(),
            PressId = order.PressId,
            RepeatUm = OrderRules.RepeatUm(order, room),
            MaterialId = OrderRules.MaterialId(order, room),
            DueUtc = order.DueUtc,
            Copies = order.Copies,
            CustomerReference = order.CustomerReference,
            ContactMail = order.ContactMail,
            EnteredUtc = now,
            EnteredBy = by,
            Ticket = new Ticket { State = TicketState.WaitingForFiles },
        };
        db.Orders.Add(saved);
        return saved;
    }

    /// <summary>The customers of these orders, those that were typed by name too.</summary>
    private static async Task<Customers> CustomersAsync(PlateRoomDb db, IReadOnlyList<NewOrder> orders, CancellationToken cancel)
    {
        var ids = orders.Where(o => o.CustomerId != 0).Select(o => o.CustomerId).Distinct().ToList();
        var names = orders.Where(o => o.CustomerId == 0).Select(o => o.NewCustomer.Trim()).Distinct().ToList();
        var found = await db.Customers.OfIdsAndNames(ids, names).ToListAsync(cancel);
        return new(found);
    }

    /// <summary>A name that is new becomes a customer once.</summary>
    private sealed class Customers(List<Customer> found)
    {
        public Customer Of(NewOrder order)
        {
            if (order.CustomerId != 0)
            {
                return found.Find(c => c.Id == order.CustomerId)
                    ?? throw new OrderRefusedException(new Dictionary<string, string> { [nameof(NewOrder.CustomerId)] = "There is no such customer." });
            }

            var name = order.NewCustomer.Trim();
            if (found.Called(name) is not { } customer)
            {
                found.Add(customer = new Customer { Name = name });
            }

            return customer;
        }
    }

    private static void AddSeparations(PlateRoomDb db, Order order, IReadOnlyList<ReadSeparation> separations, Room room)
    {
        var ticket = order.Ticket!;
        foreach (var read in separations.OrderBy(s => ColourNames.PrintOrder(s.Facts.Colour)).ThenBy(s => s.Facts.Colour, StringComparer.OrdinalIgnoreCase))
        {
            var facts = read.Facts;
            var separation = new Separation
            {
                Colour = facts.Colour.Trim(),
                ColourFrom = facts.ColourFrom,
                FileName = facts.FileName,
                Sha256 = read.Sha256,
                FileBytes = read.FileBytes,
                WidthPixels = facts.WidthPixels,
                HeightPixels = facts.HeightPixels,
                XPixelsPerMm = facts.XPixelsPerMm,
                YPixelsPerMm = facts.YPixelsPerMm,
                WidthUm = SeparationRules.Micrometres(facts.WidthMm),
                LengthUm = SeparationRules.Micrometres(facts.HeightMm),
                LengthVerdict = SeparationRules.Length(facts, order.RepeatUm / 1000.0, order.MaterialId, room).Verdict,
                AcceptedBecause = read.AcceptedBecause.Trim(),
            };
            if (facts.Image is { } image)
            {
                Keep(db, separation, image);
            }

            ticket.Separations.Add(separation);
            AddPlates(order, separation);
        }
    }

    private static void AddPlates(Order order, Separation separation)
    {
        for (var copy = 1; copy <= order.Copies; copy++)
        {
            order.Ticket!.Plates.Add(new Plate { Separation = separation, Copy = copy, WidthUm = separation.WidthUm, LengthUm = separation.LengthUm });
        }
    }

    private static void Keep(PlateRoomDb db, Separation separation, SeparationImage image)
    {
        separation.Coverage = image.Coverage;
        separation.ImageHash = image.ImageHash;
        if (image.Box is { } box)
        {
            separation.ImageLeftUm = SeparationRules.Micrometres(box.LeftMm);
            separation.ImageTopUm = SeparationRules.Micrometres(box.TopMm);
            separation.ImageWidthUm = SeparationRules.Micrometres(box.WidthMm);
            separation.ImageLengthUm = SeparationRules.Micrometres(box.HeightMm);
        }

        if (!image.PreviewPng.IsEmpty)
        {
            db.SeparationPreviews.Add(new SeparationPreview { Separation = separation, Png = image.PreviewPng.ToArray() });
        }
    }

    private static async Task<List<Sheet>> LayOutAsync(
        PlateRoomDb db, Room room, Order order, bool together, DateTime now, CancellationToken cancel)
    {
        var plates = order.Ticket!.Plates;
        if (plates.Count == 0)
        {
            return [];
        }

        SheetMaker.Recipe(room, order.MaterialId);
        order.Ticket.State = TicketState.WaitingForLayout;
        var shelf = await Shelf.ReadAsync(db, room, order.MaterialId, plates.Count, now, cancel);
        var result = together ? null : shelf.Lay(
            [.. plates.Select(p => new NestPlate(p.Id, p.WidthUm, p.LengthUm) { Separation = p.SeparationId })], room.NestRules);
        if (result is not { TooLarge.Count: 0, NoSheetLeft.Count: 0 })
        {
            await db.SaveChangesAsync(cancel);
            return [];
        }

        var taker = new StockTaker(db, room, order.MaterialId, now);
        await taker.ReadAsync(shelf, result.Sheets, cancel);
        var sheets = await taker.MakeAsync(shelf, result.Sheets, cancel);
        order.Ticket.State = TicketState.Ready;
        await db.SaveChangesAsync(cancel);
        taker.KeepRemnants();
        await db.SaveChangesAsync(cancel);
        return sheets;
    }

    private void Tell(List<Sheet> sheets)
    {
        if (sheets.Count > 0)
        {
            events.TellChanged([.. sheets.Select(s => s.Id)]);
            events.AskForPlan();
        }
    }
}

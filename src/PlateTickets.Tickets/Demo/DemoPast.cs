using System.Globalization;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Process.Distortion;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Demo;

/// <summary>
/// Two invented months before the demo's last days, all of it done: orders, sheets, stages, readings and remakes for charts and reports. Written at
/// once and without scans and images, so that the first start stays quick; the same for the same seed.
/// </summary>
internal sealed class DemoPast(IDbContextFactory<PlateRoomDb> databases, Room room, DateTime nowUtc)
{
    /// <summary>How far back it goes.</summary>
    public const int Days = 62;

    // The played last days begin 36 hours ago: by then the past is over.
    private const double LastEntryDaysAgo = 3.5;
    private const int OrdersADay = 4;
    private static readonly string[] Colours = ["Cyan", "Magenta", "Yellow", "Black", "Harvest Orange", "Deep Violet"];

    private static readonly (PlateDefect Defect, Station? Cause, Station Found)[] Troubles =
    [
        (PlateDefect.Scratch, Station.Cutting, Station.Cutting), (PlateDefect.Scratch, Station.Washout, Station.Cutting), (PlateDefect.Scratch, Station.Imaging, Station.PostFinish),
        (PlateDefect.MissingDots, Station.FaceExposure, Station.Cutting), (PlateDefect.MissingDots, Station.Washout, Station.PostFinish), (PlateDefect.UnevenFloor, Station.BackExposure, Station.Washout),
        (PlateDefect.WrongImage, null, Station.Cutting), (PlateDefect.MaskResidue, Station.Washout, Station.PostFinish), (PlateDefect.Kink, Station.Cutting, Station.Cutting),
        (PlateDefect.LeaningDots, Station.FaceExposure, Station.Cutting), (PlateDefect.Scratch, Station.Cutting, Station.Cutting), (PlateDefect.Tack, Station.PostFinish, Station.Cutting),
    ];

    private readonly Random _random = new(11);
    private readonly DateTime _from = nowUtc.AddDays(-Days - 1);

    public async Task WriteAsync(CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = "Demo";
        await using var transaction = await db.BeginWriteAsync(cancel);
        var customers = await db.Customers.OrderBy(c => c.Id).Select(c => c.Id).ToListAsync(cancel);
        var tickets = await db.NumberSequences.SingleAsync(s => s.Kind == NumberKind.Ticket, cancel);
        var sheets = await db.NumberSequences.SingleAsync(s => s.Kind == NumberKind.Sheet, cancel);
        var shop = new DemoShop(room, _from, nowUtc, nowUtc, _random);
        var readings = new DemoReadings(room, nowUtc, _random);
        var spoilt = new List<(Placement Placement, Order Order)>();
        foreach (var (entered, index) in Entries(shop).Select((e, i) => (e, i)))
        {
            var order = OrderOf(customers[index % customers.Count], index, entered, tickets.Take());
            db.Orders.Add(order);
            foreach (var sheet in Lay(order, sheets, [.. order.Ticket!.Plates], entered))
            {
                order.Ticket.DoneUtc = Later(order.Ticket.DoneUtc, Pass(db, shop, readings, sheet, entered.AddMinutes(12 + _random.Next(40)), order));
                if (_random.NextDouble() < 0.14)
                {
                    spoilt.Add((sheet.Placements[_random.Next(sheet.Placements.Count)], order));
                }
            }
        }

        await db.SaveChangesAsync(cancel);
        // A remake is squeezed in between: it finds free machines.
        shop = new DemoShop(room, _from, nowUtc, nowUtc, _random);
        spoilt.Sort((a, b) => a.Order.EnteredUtc.CompareTo(b.Order.EnteredUtc));
        foreach (var ((placement, order), index) in spoilt.Select((s, i) => (s, i)))
        {
            MakeAgain(db, shop, readings, sheets, placement, order, Troubles[index % Troubles.Length]);
        }

        await db.SaveChangesAsync(cancel);
        await transaction.CommitAsync(cancel);
    }

    private List<DateTime> Entries(DemoShop shop)
    {
        var count = (int)((Days - LastEntryDaysAgo) * OrdersADay);
        var entries = new List<DateTime>();
        for (var i = 0; i < count; i++)
        {
            var about = nowUtc.AddDays(-Days + ((i + _random.NextDouble()) / OrdersADay));
            entries.Add(shop.Working.EarliestStart(about.AddTicks(-(about.Ticks % TimeSpan.TicksPerSecond)), TimeSpan.FromMinutes(1))!.Value);
        }

        return [.. entries.Order()];
    }

    private Order OrderOf(int customerId, int index, DateTime entered, string number)
    {
        var press = room.Presses[index % 6 < 4 ? 0 : index % 6 == 4 ? 1 : 2];
        var cylinder = press.Cylinders[_random.Next(press.Cylinders.Count)];
        var material = room.Materials[press.UsualMaterialId];
        var hours = index % 11 == 3 ? 4 + (3 * _random.NextDouble()) : 12 + (24 * _random.NextDouble());
        var due = entered.AddHours(hours);
        var flat = PlateDistortion.FlatLengthMm(cylinder.RepeatUm / 1000.0, material.ThicknessUm / 1000.0, material.BaseUm / 1000.0);
        var order = new Order
        {
            Number = number,
            CustomerId = customerId,
            Title = DemoRoom.Titles[index % DemoRoom.Titles.Length],
            PressId = press.Id,
            RepeatUm = cylinder.RepeatUm,
            MaterialId = material.Id,
            DueUtc = due.AddTicks(-(due.Ticks % TimeSpan.FromMinutes(15).Ticks)),
            EnteredUtc = entered,
            EnteredBy = "Demo CSR",
            Ticket = new Ticket { State = TicketState.Done },
        };
        var around = (int)Math.Round(1000 * (cylinder.RepeatUm > 700_000 ? flat / 2 : flat));
        var across = 1000 * (180 + (10 * _random.Next(14)));
        foreach (var colour in Colours.Skip(index % 5 == 3 ? 2 : 0).Take(3 + _random.Next(3)))
        {
            var separation = SeparationOf(colour, index, across, around, cylinder.RepeatUm > 700_000);
            order.Ticket.Separations.Add(separation);
            order.Ticket.Plates.Add(new Plate { Ticket = order.Ticket, Separation = separation, Copy = 1, WidthUm = across, LengthUm = around });
        }

        return order;
    }

    private static Separation SeparationOf(string colour, int index, int widthUm, int lengthUm, bool half)
    {
        var name = string.Create(CultureInfo.InvariantCulture, $"past-{index + 1:000}({colour}).tif");
        return new Separation
        {
            Colour = colour,
            ColourFrom = ColourSource.FileName,
            FileName = name,
            Sha256 = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(name))),
            FileBytes = (long)widthUm * lengthUm / 1_600_000,
            WidthPixels = widthUm / 10,
            HeightPixels = lengthUm / 10,
            XPixelsPerMm = 100,
            YPixelsPerMm = 100,
            WidthUm = widthUm,
            LengthUm = lengthUm,
            LengthVerdict = half ? LengthVerdict.Fraction : LengthVerdict.Right,
        };
    }

    /// <summary>Plates side by side along the axis, in one or more rows, on the smallest stock size that takes most of them.</summary>
    private IEnumerable<Sheet> Lay(Order order, NumberSequence numbers, List<Plate> plates, DateTime madeUtc)
    {
        var (gap, clamp, side) = (room.Site.KnifeGapUm, room.Site.ClampMarginUm, room.Site.SideMarginUm);
        var (width, length) = (plates[0].WidthUm, plates[0].LengthUm);
        var sizes = room.StockSizes.Where(s => s.MaterialId == order.MaterialId).Select(s => (Size: s, Columns: (s.WidthUm - (2 * side) + gap) / (width + gap), Rows: (s.LengthUm - (2 * clamp) + gap) / (length + gap)))
            .Where(s => s is { Columns: > 0, Rows: > 0 }).ToList();
        for (var done = 0; done < plates.Count;)
        {
            var left = plates.Count - done;
            var (size, columns, rows) = sizes.OrderByDescending(s => Math.Min(left, s.Columns * s.Rows)).ThenBy(s => (long)s.Size.WidthUm * s.Size.LengthUm).First();
            var taken = plates.Skip(done).Take(columns * rows).ToList();
            done += taken.Count;
            var recipe = SheetMaker.Recipe(room, order.MaterialId);
            var extent = (Math.Min(columns, taken.Count) * (width + gap)) - gap;
            // What is worth keeping was cut off as a remnant, and used up since.
            var rest = size.WidthUm - extent - (2 * side);
            var end = size.LengthUm - ((((taken.Count + columns - 1) / columns) * (length + gap)) - gap) - (2 * clamp);
            var across = rest >= room.Site.LeastRemnantUm && (long)rest * size.LengthUm >= (long)end * size.WidthUm;
            yield return new Sheet
            {
                Number = numbers.Take(),
                MaterialId = order.MaterialId,
                RecipeRevisionId = recipe.Id,
                WidthUm = across ? size.WidthUm - rest : size.WidthUm,
                LengthUm = !across && end >= room.Site.LeastRemnantUm ? size.LengthUm - end : size.LengthUm,
                FromWidthUm = size.WidthUm,
                FromLengthUm = size.LengthUm,
                Lot = DemoReadings.Lot(order.MaterialId, (nowUtc - madeUtc).TotalDays),
                AxialExtentUm = extent,
                PlateCount = taken.Count,
                MadeUtc = madeUtc,
                Stages = [.. recipe.Settings.Route.Select(s => new Stage { Station = s })],
                Placements = [.. taken.Select((p, i) => new Placement
                {
                    Plate = p,
                    Mark = i + 1,
                    XUm = side + (i % columns * (width + gap)),
                    YUm = clamp + (i / columns * (length + gap)),
                    WidthUm = width,
                    LengthUm = length,
                })],
            };
        }
    }

    private static DateTime Pass(PlateRoomDb db, DemoShop shop, DemoReadings readings, Sheet sheet, DateTime ready, Order order)
    {
        var done = shop.Pass(sheet, ready);
        sheet.Stages.ForEach(s => s.DueByUtc = order.DueUtc);
        db.Sheets.Add(sheet);
        db.StageReadings.AddRange(readings.Of(sheet));
        return done;
    }

    private void MakeAgain(
        PlateRoomDb db, DemoShop shop, DemoReadings readings, NumberSequence numbers, Placement placement, Order order, (PlateDefect Defect, Station? Cause, Station Found) trouble)
    {
        var (old, sheet, ticket) = (placement.Plate!, placement.Sheet!, order.Ticket!);
        var found = sheet.Stages.Find(s => s.Station == trouble.Found)!.FinishedUtc!.Value;
        var plate = new Plate { Ticket = ticket, SeparationId = old.SeparationId, Copy = old.Copy, WidthUm = old.WidthUm, LengthUm = old.LengthUm, RemakeOfPlateId = old.Id };
        old.OutOfSet = true;
        var again = Lay(order, numbers, [plate], found).Single();
        ticket.DoneUtc = Later(ticket.DoneUtc, Pass(db, shop, readings, again, found.AddMinutes(20), order));
        db.Remakes.Add(new Remake
        {
            Ticket = ticket,
            Sheet = sheet,
            Plate = old,
            NewPlate = plate,
            Defect = trouble.Defect,
            Reason = trouble.Defect == PlateDefect.WrongImage ? "customer sent the file of the last edition" : "",
            CausedAt = trouble.Cause,
            FoundAt = trouble.Found,
            AtUtc = found,
            By = sheet.Stages.Find(s => s.Station == trouble.Found)!.FinishedBy,
            AreaUm2 = (long)placement.WidthUm * placement.LengthUm,
            SpentSeconds = sheet.Stages.Where(s => s.Station <= trouble.Found).Sum(s => s.TotalSeconds) / sheet.PlateCount,
        });
    }

    private static DateTime? Later(DateTime? a, DateTime b) => a > b ? a : b;
}

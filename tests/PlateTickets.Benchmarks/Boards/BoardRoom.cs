using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Benchmarks.Boards;

/// <summary>Fills the demo room up with invented sheets, spread over the stations as they are in a room at work.</summary>
internal static class BoardRoom
{
    private const int TicketsAtOnce = 100;

    // What of a room's open sheets waits where: most before the first stations.
    private static readonly Station[] Places =
        [Station.BackExposure, Station.BackExposure, Station.BackExposure, Station.Imaging, Station.Imaging, Station.FaceExposure, Station.Washout, Station.Drying, Station.PostFinish, Station.Cutting];

    public static async Task FillAsync(IDbContextFactory<PlateRoomDb> databases, Room room, DateTime nowUtc, int wanted)
    {
        int there;
        List<int> customers;
        await using (var db = await databases.CreateDbContextAsync())
        {
            there = await db.Sheets.CountAsync(s => s.State == SheetState.Waiting || s.State == SheetState.Running);
            customers = await db.Customers.Select(c => c.Id).ToListAsync();
        }

        var random = new Random(1);
        for (var made = there; made < wanted; made += TicketsAtOnce)
        {
            await using var db = await databases.CreateDbContextAsync();
            db.ChangeTracker.AutoDetectChangesEnabled = false;
            var numbers = await db.NumberSequences.ToDictionaryAsync(n => n.Kind);
            for (var i = made; i < Math.Min(wanted, made + TicketsAtOnce); i++)
            {
                db.Add(TicketOf(room, numbers, customers[i % customers.Count], i, nowUtc, random));
            }

            db.ChangeTracker.DetectChanges();
            await db.SaveChangesAsync();
        }
    }

    private static Sheet TicketOf(Room room, Dictionary<NumberKind, NumberSequence> numbers, int customer, int index, DateTime nowUtc, Random random)
    {
        var press = room.Presses[index % room.Presses.Count];
        var revision = room.Released(press.UsualMaterialId)!;
        var order = new Order
        {
            Number = numbers[NumberKind.Ticket].Take(),
            CustomerId = customer,
            Title = $"Invented job {index}",
            PressId = press.Id,
            MaterialId = press.UsualMaterialId,
            RepeatUm = 400_000,
            DueUtc = nowUtc.AddHours(6 + (index * 0.12)),
            EnteredUtc = nowUtc,
            EnteredBy = "Benchmark",
        };
        var ticket = new Ticket { Order = order, State = TicketState.InWork };
        var at = revision.Settings.Route.Contains(Places[index % Places.Length]) ? Places[index % Places.Length] : Station.BackExposure;
        var sheet = new Sheet
        {
            Number = numbers[NumberKind.Sheet].Take(),
            MaterialId = press.UsualMaterialId,
            RecipeRevisionId = revision.Id,
            WidthUm = 900_000,
            LengthUm = 1_200_000,
            AxialExtentUm = 800_000,
            PlateCount = 4,
            State = SheetState.Waiting,
            CurrentStation = at,
            MadeUtc = nowUtc,
        };
        var finished = nowUtc.AddHours(-3);
        sheet.Stages = [.. revision.Settings.Route.Select(s => s < at
            ? new Stage { Station = s, State = StageState.Done, EquipmentId = room.For(s, revision.Settings).First().Id, LoadSeconds = 60, RunSeconds = 600, UnloadSeconds = 60, StartedUtc = finished.AddMinutes(-12), FinishedUtc = finished.AddSeconds(random.Next(3600)) }
            : new Stage { Station = s })];
        sheet.Placements = [.. new[] { "Cyan", "Magenta", "Yellow", "Black" }.Select((colour, mark) => new Placement
        {
            Mark = mark + 1, WidthUm = 300_000, LengthUm = 390_000, YUm = mark * 10_000,
            Plate = new Plate
            {
                Ticket = ticket, Copy = 1, WidthUm = 300_000, LengthUm = 390_000,
                Separation = new Separation { Colour = colour, FileName = $"{index}({colour}).tif", Sha256 = new string('0', 64), WidthUm = 300_000, LengthUm = 390_000, AcceptedBecause = "invented" },
            },
        })];
        ticket.Separations = [.. sheet.Placements.Select(p => p.Plate!.Separation!)];
        return sheet;
    }
}

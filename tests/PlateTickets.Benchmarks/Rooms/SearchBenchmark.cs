using System.Diagnostics;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Demo;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Search;

namespace PlateTickets.Benchmarks.Rooms;

/// <summary>Finding tickets among many: a page of 25 with all that the list shows.</summary>
internal static class SearchBenchmark
{
    private const int PageSize = 25;
    private const int Rounds = 40;
    private static readonly string[] Goods = ["Label", "Carton", "Pouch", "Bag", "Sleeve", "Wrap", "Tray", "Lid"];
    private static readonly string[] Tastes = ["olive", "rye", "plum", "barley", "quince", "sorrel", "hazel", "juniper", "pear", "mint"];
    private static readonly string[] Colours = ["Cyan", "Magenta", "Yellow", "Black", "Leaf Green", "Harvest Orange", "Deep Violet"];

    public static async Task<int> RunAsync(string[] args)
    {
        var wanted = (int)Options.Of(args, "--tickets").Number("--tickets", 500_000);
        await using var room = await BenchRoom.CreateAsync(RoomStartKind.Demo);
        var watch = Stopwatch.StartNew();
        await WriteAsync(room, wanted);
        Console.WriteLine($"{wanted} tickets written in {watch.Elapsed.TotalSeconds:0.0} s, {new FileInfo(room.File).Length / 1e6:0} MB");
        var (search, queries) = (new TicketSearch(room), new OrderQueries(room));
        var day = new DateOnly(2020, 3, 17);
        Console.WriteLine("question                      found    median ms   95th pct ms   slowest ms");
        foreach (var (name, ask) in new (string, TicketAsk)[]
        {
            ("a number", new TicketAsk("Q0250000")), ("a number's beginning", new TicketAsk("Q02500")), ("a customer", new TicketAsk("Customer 77")), ("a frequent word", new TicketAsk("cyan")),
            ("two frequent words", new TicketAsk("cyan label")), ("three words", new TicketAsk("leaf plum pouch")), ("one letter", new TicketAsk("q")), ("a word, nowhere", new TicketAsk("zeppelin")),
            ("two words, never together", new TicketAsk("olive rye")), ("a lot", new TicketAsk("L-00499")), ("a day", new TicketAsk("", day, day)), ("a word in ten years", new TicketAsk("plum", day, day.AddYears(9))),
            ("frequent words on an old day", new TicketAsk("cyan label", day, day)),
        })
        {
            var times = new List<double>();
            var found = 0;
            for (var i = 0; i <= Rounds; i++)
            {
                watch.Restart();
                found = (await queries.ListAsync(await search.FindAsync(ask, null, PageSize))).Count;
                if (i > 0)
                {
                    times.Add(watch.Elapsed.TotalMilliseconds);
                }
            }

            times.Sort();
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name,-30}{found,5}{times[Rounds / 2],13:0.0}{times[(int)(Rounds * 0.95)],14:0.0}{times[^1],13:0.0}"));
        }

        return 0;
    }

    private static async Task WriteAsync(BenchRoom room, int wanted)
    {
        await using var db = room.CreateDbContext();
        var (press, material, first) = (await db.Presses.Select(p => p.Id).FirstAsync(), await db.Materials.Select(m => m.Id).FirstAsync(), await db.Orders.MaxAsync(o => o.Id) + 1);
        var customer = await db.Customers.Select(c => c.Id).FirstAsync();
        await using var transaction = await db.Database.BeginTransactionAsync();
        for (var i = 0; i < wanted; i++)
        {
            var (id, number) = (first + i, string.Create(CultureInfo.InvariantCulture, $"Q{i:0000000}"));
            var due = new DateTime(2018, 1, 1, 12, 0, 0, DateTimeKind.Utc).AddMinutes(i * 9.0);
            var title = $"{Tastes[i % 10]} {Goods[i / 10 % 8]} {i % 1000} g";
            var text = $"{number}\nCustomer {i % 900}\n{title}\nPress A\nSoft 1.14\n{Colours[i % 7]}\n{Colours[(i + 1) % 7]}\n{Colours[(i + 3) % 7]}\nL-{i / 100:00000}";
            var days = string.Create(CultureInfo.InvariantCulture, $"{due:yyyyMMdd} {due:yyyyMM}");
            await db.Database.ExecuteSqlAsync(
                $"""
                INSERT INTO "Orders" ("Id", "Number", "CustomerId", "Title", "PressId", "RepeatUm", "MaterialId", "DueUtc", "Copies", "EnteredUtc", "EnteredBy", "Version")
                VALUES ({id}, {number}, {customer}, {title}, {press}, 500000, {material}, {due}, 1, {due}, 'Benchmark', 1)
                """);
            await db.Database.ExecuteSqlAsync($"""INSERT INTO "Tickets" ("Id", "State", "Weight", "DoneUtc", "Version") VALUES ({id}, 'Done', 1, {due}, 1)""");
            await db.Database.ExecuteSqlAsync($"""INSERT INTO "TicketTexts" ("TicketId", "Text", "Days") VALUES ({id}, {text}, {days})""");
        }

        await transaction.CommitAsync();
    }
}

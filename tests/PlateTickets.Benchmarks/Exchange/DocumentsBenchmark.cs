using System.Diagnostics;
using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Benchmarks.Rooms;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Demo;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Exchange.Xjdf;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Tests.Exchange;

namespace PlateTickets.Benchmarks.Exchange;

/// <summary>Order documents: read in memory, and taken in until their order is on disk.</summary>
internal static class DocumentsBenchmark
{
    public static async Task<int> RunAsync(string[] args)
    {
        var count = (int)Options.Of(args, "--documents").Number("--documents", 1000);
        var small = XjdfText.Bytes(XjdfText.Order(files: true));
        var large = XjdfText.Bytes(XjdfText.Order(colours: string.Join(' ', Enumerable.Range(1, 200).Select(i => $"Spot{i}")), files: true, more: Filler()));
        Read("4 plates", small, count * 10);
        Read("200 plates and 2000 things that are not used", large, count / 10);

        var folder = Path.Combine(Path.GetTempPath(), $"documents-{Guid.NewGuid():N}");
        await using var room = await BenchRoom.CreateAsync(RoomStartKind.Demo);
        await using (var db = room.CreateDbContext())
        {
            // The clock of the benchmark's room: documents must be due after it.
            Console.WriteLine($"The room has {await db.Orders.CountAsync()} orders.");
        }

        using var catalog = new RoomCatalog(room, room);
        var events = new RoomEvents();
        var desk = new DocumentDesk(
            room, catalog, new OrderEntry(room, catalog, events, room), new OrderChanges(room, catalog, events, room), new OrderCopies(room, catalog, new LayoutDesk(room, catalog, events, room), events), new DocumentShelf(folder), room);
        await TakeAsync(desk, 20, "warm");
        var watch = Stopwatch.StartNew();
        var times = await TakeAsync(desk, count, "JOB");
        times.Sort();
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"taken in, each an order on disk: {count / watch.Elapsed.TotalSeconds:0} documents a second one after the other; median {times[count / 2]:0.0} ms, 95 % within {times[count * 95 / 100]:0.0} ms"));
        Directory.Delete(folder, recursive: true);
        return 0;
    }

    private static async Task<List<double>> TakeAsync(DocumentDesk desk, int count, string name)
    {
        var times = new List<double>();
        for (var i = 0; i < count; i++)
        {
            var bytes = XjdfText.Bytes(XjdfText.Order(jobId: $"{name}-{i}"));
            var watch = Stopwatch.StartNew();
            var outcome = await desk.TakeAsync(new DocumentArrival(DocumentDoor.Http, "bench", "order.xjdf", bytes));
            times.Add(watch.Elapsed.TotalMilliseconds);
            if (outcome.Document.State != DocumentState.Done)
            {
                throw new FormatException($"Document {i} was not entered: {outcome.Document.Sentence}");
            }
        }

        return times;
    }

    private static void Read(string what, byte[] bytes, int times)
    {
        for (var i = 0; i < Math.Max(20, times / 10); i++)
        {
            XjdfReader.Read(bytes);
        }

        var watch = Stopwatch.StartNew();
        for (var i = 0; i < times; i++)
        {
            XjdfReader.Read(bytes);
        }

        var seconds = watch.Elapsed.TotalSeconds;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"read, {what} ({bytes.Length / 1024.0:0.0} KiB): {times / seconds:0} documents a second on one core, {times * (double)bytes.Length / seconds / 1e6:0} MB/s"));
    }

    private static string Filler()
    {
        var text = new StringBuilder("<ResourceSet Name=\"Ink\" Usage=\"Input\">");
        for (var i = 0; i < 1000; i++)
        {
            text.Append(CultureInfo.InvariantCulture, $"<Resource Brand=\"Ink {i}\"><Ink InkType=\"Ink\"/></Resource>");
        }

        return text.Append("</ResourceSet>").ToString();
    }
}

using System.Globalization;
using System.IO.Compression;
using System.Xml.Linq;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Exchange.Messages;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Quality;

namespace PlateTickets.Tickets.Tests.Exchange;

/// <summary>What is given back of a job that went through the room, held against the published schema where that is here.</summary>
public sealed class ReturnedXjdfTests
{
    private static readonly XNamespace Ns = "http://www.CIP4.org/JDFSchema_2_0";

    [Fact]
    public async Task AFinishedJob_TellsWhatWasMadeWastedAndWhen()
    {
        await using var room = await RoomFixture.CreateAsync();
        var folder = Path.Combine(Path.GetTempPath(), $"documents-{Guid.NewGuid():N}");
        var desk = new DocumentDesk(
            room, room.Rooms, room.Entry, new OrderChanges(room, room.Rooms, room.Events, room.Clock), new OrderCopies(room, room.Rooms, room.Layouts, room.Events), new DocumentShelf(folder), room.Clock);
        var jobs = new JobEntries(room, room.Book, room.Clock);
        var returned = new ReturnedXjdf(room, jobs, room.Clock);
        var sent = await desk.TakeAsync(new DocumentArrival(DocumentDoor.Http, "Order desk", "order.xjdf", XjdfText.Bytes(XjdfText.Order(colours: "Cyan Black"))));
        await room.Entry.AddSeparationsAsync(sent.Ticket!, [RoomFixture.Read("Cyan"), RoomFixture.Read("Black")], "test");
        await room.Plans.ReplanAsync();
        Assert.Equal(("Waiting", "QueuedToRun"), await StateAsync());

        var start = room.Now;
        var sheet = (await room.Orders.FindAsync(sent.Ticket!))!.Sheets.Single();
        await room.PassAsync(sheet.Number, "frame-1");
        Assert.Equal(("InProgress", "QueuedToRun"), await StateAsync());
        foreach (var (_, machine) in RoomFixture.SolventRoute[1..6])
        {
            await room.PassAsync(sheet.Number, machine);
        }

        await room.ScanAsync(sheet.Number, "cutting-table");
        Assert.Equal(("InProgress", "Cutting"), await StateAsync());
        var black = sheet.Placements.Single(p => p.Plate!.Separation!.Colour == "Black");
        var made = (await room.Remakes.RemakeAsync(new(sheet.Number, [black.PlateId], PlateDefect.Scratch, "by the ruler", Station.Cutting, Station.Cutting), "Ada Lind")).NewSheets.Single();
        room.Clock.Advance(TimeSpan.FromMinutes(10));
        await room.ScanAsync(sheet.Number, "cutting-table");
        var phase = XjmfText.JobPhase((await jobs.ListAsync(new JobAsk([sent.Document.QueueEntryId])))[0]);
        Assert.Equal(("1", "1", "Rework"), (phase.Attribute("Amount")!.Value, phase.Attribute("Waste")!.Value, phase.Element(Ns + "MISDetails")!.Attribute("WorkType")!.Value));
        await room.Plans.ReplanAsync();
        foreach (var (_, machine) in RoomFixture.SolventRoute)
        {
            await room.PassAsync(made, machine);
        }

        Assert.Equal(("Completed", ""), await StateAsync());
        var document = (await returned.OfAsync(sent.Document.QueueEntryId))!;
        Assert.True(XjdfSchema.Wrong(XjmfText.Bytes(document)) is [], string.Join("\n", XjdfSchema.Wrong(XjmfText.Bytes(document))));
        var audits = document.Root!.Element(Ns + "AuditPool")!.Elements().ToList();
        Assert.Equal("AuditCreated", audits[0].Name.LocalName);
        Assert.Equal(
            [.. Process.Stations.InOrder.Concat(Process.Stations.InOrder).Select(s => $"{s}")],
            audits.Where(a => a.Name.LocalName == "AuditStatus").Select(a => a.Descendants(Ns + "JobPhase").Single().Attribute("StatusDetails")!.Value));
        Assert.Equal(
            ["Black 0 1 Rework", "Black 1 0 Original", "Cyan 1 0 Original"],
            audits.Where(a => a.Name.LocalName == "AuditResource").Select(a => a.Descendants(Ns + "PartAmount").Single())
                .Select(p => $"{p.Element(Ns + "Part")!.Attribute("Separation")!.Value} {p.Attribute("Amount")!.Value} {p.Attribute("Waste")!.Value} {p.Ancestors(Ns + "ResourceInfo").Single().Element(Ns + "MISDetails")!.Attribute("WorkType")!.Value}").Order());
        Assert.Equal("Scratch", document.Descendants(Ns + "PartWaste").Single().Attribute("WasteDetails")!.Value);
        var run = audits.Single(a => a.Name.LocalName == "AuditProcessRun").Element(Ns + "ProcessRun")!;
        Assert.Equal(("Completed", sent.Document.QueueEntryId, XjmfText.Time(start)), (run.Attribute("EndStatus")!.Value, run.Attribute("QueueEntryID")!.Value, run.Attribute("Start")!.Value));
        var times = audits.Skip(1).Select(a => DateTime.Parse(a.Element(Ns + "Header")!.Attribute("Time")!.Value, CultureInfo.InvariantCulture)).ToList();
        Assert.Equal(times.Order(), times);

        using var zip = new ZipArchive(new MemoryStream(await returned.PackageAsync((await jobs.ListAsync(new JobAsk([sent.Document.QueueEntryId])))[0], "RQ1")), ZipArchiveMode.Read);
        Assert.Equal(["root.xjmf", "returned.xjdf"], zip.Entries.Select(e => e.FullName));
        using var message = new MemoryStream();
        await (await zip.Entries[0].OpenAsync()).CopyToAsync(message);
        Assert.Empty(XjdfSchema.Wrong(message.ToArray()));

        // One event store: what signals are made of is what the audits tell.
        await using var db = room.CreateDbContext();
        var events = await db.TicketEvents.OrderBy(e => e.Id).Select(e => e.Kind).ToListAsync();
        Assert.Equal((1, 14, 14, 1, 1), (events.Count(e => e == TicketEventKind.Entered), events.Count(e => e == TicketEventKind.StageStarted), events.Count(e => e == TicketEventKind.StageDone), events.Count(e => e == TicketEventKind.PlateRemade), events.Count(e => e == TicketEventKind.Finished)));
        Directory.Delete(folder, recursive: true);

        async Task<(string, string)> StateAsync()
        {
            var job = (await jobs.ListAsync(new JobAsk([sent.Document.QueueEntryId])))[0];
            return (job.Status, job.Details);
        }
    }
}

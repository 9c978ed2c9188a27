using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Exchange.Xjdf;
using PlateTickets.Tickets.Orders;

namespace PlateTickets.Tickets.Tests.Exchange;

/// <summary>Documents of other programs become orders, or wait for a person.</summary>
public sealed class DocumentDeskTests : IAsyncDisposable
{
    private readonly string _folder = Path.Combine(Path.GetTempPath(), $"documents-{Guid.NewGuid():N}");
    private RoomFixture? _room;
    private DocumentDesk? _desk;
    private DocumentShelf? _shelf;

    [Fact]
    public async Task ADocumentWithoutDoubts_BecomesAnOrder()
    {
        var (room, desk) = await StartAsync();
        var outcome = await SendAsync(XjdfText.Order(amount: "2"));
        Assert.Equal(DocumentState.Done, outcome.Document.State);
        var ticket = (await room.Orders.FindAsync(outcome.Ticket!))!;
        Assert.Equal(("Northmere Dairy", "Butter foil 250 g", "Press 1, wide film", 400_000, "Aster 170", 2), (ticket.Order.Customer!.Name, ticket.Order.Title, ticket.Order.Press!.Name, ticket.Order.RepeatUm, ticket.Order.Material!.Name, ticket.Order.Copies));
        Assert.Equal(new DateTime(2026, 11, 27, 13, 0, 0, DateTimeKind.Utc), ticket.Order.DueUtc);
        Assert.Equal(("PO 8831", "plates@northmere.example", "Order desk"), (ticket.Order.CustomerReference, ticket.Order.ContactMail, ticket.Order.EnteredBy));
        Assert.Equal(TicketState.WaitingForFiles, ticket.Ticket.State);
        Assert.Contains(outcome.Notes, n => n.Contains("Aster 170", StringComparison.Ordinal));

        // Byte by byte what came, and the event that it happened.
        await using var db = room.CreateDbContext();
        Assert.Equal(XjdfText.Bytes(XjdfText.Order(amount: "2")), (await db.DocumentTexts.SingleAsync()).Xjdf);
        Assert.Equal([TicketEventKind.Entered], await db.TicketEvents.Select(e => e.Kind).ToListAsync());
    }

    [Fact]
    public async Task TheSameAgain_ChangesNothing()
    {
        var (room, _) = await StartAsync();
        var first = await SendAsync(XjdfText.Order());
        var again = await SendAsync(XjdfText.Order());
        Assert.True(again.Repeated);
        Assert.Equal((first.Document.Id, first.Ticket), (again.Document.Id, again.Ticket));
        await using var db = room.CreateDbContext();
        Assert.Equal(1, await db.Orders.CountAsync());
    }

    [Theory]
    [InlineData("thickness", "1.7", QuestionKind.Material, "did its sender mean 1.7 mm")]
    [InlineData("thickness", "3000", QuestionKind.Material, "no material of 3000 µm")]
    [InlineData("press", "", QuestionKind.Press, "names no press")]
    [InlineData("press", "Gravure 9", QuestionKind.Press, "Which press is “Gravure 9”")]
    [InlineData("cylinder", "", QuestionKind.Cylinder, "names no cylinder")]
    [InlineData("cylinder", "Sleeve 999", QuestionKind.Cylinder, "has no cylinder “Sleeve 999”")]
    [InlineData("company", "", QuestionKind.Customer, "Which customer is “C-0042”")]
    [InlineData("company", "Someone New", QuestionKind.Customer, "is no customer here yet")]
    [InlineData("due", "", QuestionKind.Due, "says no time")]
    [InlineData("due", "tomorrow", QuestionKind.Due, "is no date and time")]
    [InlineData("due", "2026-11-01T10:00:00Z", QuestionKind.Due, "in the past")]
    [InlineData("amount", "1.5", QuestionKind.Copies, "no number of plates")]
    public async Task WhatIsNotSure_IsAskedAndNothingEntered(string what, string value, QuestionKind kind, string says)
    {
        var (room, _) = await StartAsync();
        var outcome = await SendAsync(what switch
        {
            "thickness" => XjdfText.Order(thickness: value),
            "press" => XjdfText.Order(press: value),
            "cylinder" => XjdfText.Order(cylinder: value),
            "company" => XjdfText.Order(company: value),
            "due" => XjdfText.Order(due: value),
            _ => XjdfText.Order(amount: value),
        });
        Assert.Equal(DocumentState.Held, outcome.Document.State);
        var asked = Assert.Single(outcome.Questions, q => q.Kind == kind);
        Assert.Contains(says, asked.Sentence, StringComparison.Ordinal);
        await using var db = room.CreateDbContext();
        Assert.Equal(0, await db.Orders.CountAsync());
    }

    [Fact]
    public async Task Answers_EnterTheOrder_AndAreRemembered()
    {
        var (room, desk) = await StartAsync();
        var press = (await room.Rooms.GetAsync()).Presses[0];
        var held = await SendAsync(XjdfText.Order(company: "", press: "P1", cylinder: ""));
        await using (var db = room.CreateDbContext())
        {
            var customer = await db.Customers.SingleAsync(c => c.Name == "Northmere Dairy");
            var done = await desk.AnswerAsync(held.Document.Id, new DocumentAnswers { CustomerId = customer.Id, PressId = press.Id, CylinderId = press.Cylinders[1].Id }, remember: true, "Ann");
            Assert.Equal(DocumentState.Done, done.Document.State);
            Assert.Equal(480_000, (await room.Orders.FindAsync(done.Ticket!))!.Order.RepeatUm);
        }

        var next = await SendAsync(XjdfText.Order(jobId: "ORD-2418", company: "", press: "P1"));
        Assert.Equal(DocumentState.Done, next.Document.State);
    }

    [Fact]
    public async Task ATimeWithoutAnOffset_IsThePlants()
    {
        var (room, _) = await StartAsync();
        await using (var db = room.CreateDbContext())
        {
            (await db.Sites.SingleAsync()).TimeZoneId = "Europe/Berlin";
            await db.SaveChangesAsync();
        }

        room.Rooms.Forget();
        var outcome = await SendAsync(XjdfText.Order(due: "2026-11-27T14:00:00"));
        Assert.Equal(new DateTime(2026, 11, 27, 13, 0, 0, DateTimeKind.Utc), (await room.Orders.FindAsync(outcome.Ticket!))!.Order.DueUtc);
        Assert.Contains(outcome.Notes, n => n.Contains("no offset", StringComparison.Ordinal));
    }

    [Fact]
    public async Task AnotherDueTime_IsTakenBeforeExposure()
    {
        var (room, _) = await StartAsync();
        var first = await SendAsync(XjdfText.Order());
        var change = await SendAsync(XjdfText.Order(due: "2026-11-28T09:00:00Z"));
        Assert.Equal((DocumentState.Done, DocumentPurpose.Change, first.Ticket), (change.Document.State, change.Document.Purpose, change.Ticket));
        Assert.Equal(first.Document.QueueEntryId, change.Document.QueueEntryId);
        Assert.Equal(new DateTime(2026, 11, 28, 9, 0, 0, DateTimeKind.Utc), (await room.Orders.FindAsync(first.Ticket!))!.Order.DueUtc);
        Assert.Contains("Due", change.Document.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AChangeOfExposedPlates_WaitsForAPersonsYes()
    {
        var (room, desk) = await StartAsync();
        var first = await SendAsync(XjdfText.Order(colours: "Cyan"));
        await room.Entry.AddSeparationsAsync(first.Ticket!, [RoomFixture.Read("Cyan")], "test");
        await room.Plans.ReplanAsync();
        var sheet = (await room.Orders.FindAsync(first.Ticket!))!.Sheets[0];
        await room.PassAsync(sheet.Number, "frame-1");

        var change = await SendAsync(XjdfText.Order(colours: "Cyan", due: "2026-11-28T09:00:00Z"));
        Assert.Equal(DocumentState.Held, change.Document.State);
        Assert.Equal(new DateTime(2026, 11, 27, 13, 0, 0, DateTimeKind.Utc), (await room.Orders.FindAsync(first.Ticket!))!.Order.DueUtc);
        var view = (await desk.FindAsync(change.Document.Id))!;
        Assert.True(view.Difference!.Exposed);
        Assert.Equal(["Due"], view.Difference.Changes.Select(c => c.What));

        var done = await desk.AnswerAsync(change.Document.Id, new DocumentAnswers { Agreed = [DocumentDesk.ChangeKey] }, remember: false, "Ann");
        Assert.Equal(DocumentState.Done, done.Document.State);
        Assert.Equal(new DateTime(2026, 11, 28, 9, 0, 0, DateTimeKind.Utc), (await room.Orders.FindAsync(first.Ticket!))!.Order.DueUtc);
    }

    [Fact]
    public async Task OtherPlates_CancelTheTicketAndMakeAnother_AfterAYes()
    {
        var (room, desk) = await StartAsync();
        var first = await SendAsync(XjdfText.Order(colours: "Cyan"));
        await room.Entry.AddSeparationsAsync(first.Ticket!, [RoomFixture.Read("Cyan")], "test");
        var change = await SendAsync(XjdfText.Order(colours: "Cyan Black", cylinder: "Sleeve 480"));
        Assert.Equal(DocumentState.Held, change.Document.State);
        Assert.Equal(["Repeat", "Colour"], (await desk.FindAsync(change.Document.Id))!.Difference!.Changes.Select(c => c.What));
        Assert.Equal(TicketState.Ready, (await room.Orders.FindAsync(first.Ticket!))!.Ticket.State);

        var done = await desk.AnswerAsync(change.Document.Id, new DocumentAnswers { Agreed = [DocumentDesk.ChangeKey] }, remember: false, "Ann");
        Assert.Equal(TicketState.Cancelled, (await room.Orders.FindAsync(first.Ticket!))!.Ticket.State);
        Assert.NotEqual(first.Ticket, done.Ticket);
        Assert.Equal(480_000, (await room.Orders.FindAsync(done.Ticket!))!.Order.RepeatUm);
    }

    [Fact]
    public async Task AnIncrementalResubmission_NamesItsQueueEntry()
    {
        var (room, desk) = await StartAsync();
        var first = await SendAsync(XjdfText.Order());
        var part = """<XJDF xmlns="http://www.CIP4.org/JDFSchema_2_0" JobID="ORD-2417" Types="ImageSetting"><ResourceSet Name="ExposedMedia" Usage="Output"><Resource/></ResourceSet><ResourceSet Name="NodeInfo" Usage="Input"><Resource><NodeInfo LastEnd="2026-11-28T09:00:00Z"/></Resource></ResourceSet></XJDF>""";
        await Assert.ThrowsAsync<DocumentRefusedException>(() => desk.TakeAsync(Arrival(part) with { QueueEntryId = "Q999", Update = UpdateMethod.Incremental }));
        var change = await desk.TakeAsync(Arrival(part) with { QueueEntryId = first.Document.QueueEntryId, Update = UpdateMethod.Incremental });
        Assert.Equal(DocumentState.Done, change.Document.State);
        Assert.Equal(new DateTime(2026, 11, 28, 9, 0, 0, DateTimeKind.Utc), (await room.Orders.FindAsync(first.Ticket!))!.Order.DueUtc);
    }

    [Fact]
    public async Task Files_GoOntoTheTicket_AndTheSheetsAreMade()
    {
        var (room, desk) = await StartAsync();
        var parts = await SeparationsAsync();
        var outcome = await desk.TakeAsync(Arrival(XjdfText.Order(files: true)) with { Files = parts });
        Assert.Equal((DocumentState.Done, 4), (outcome.Document.State, outcome.Document.FilesOpen));
        await desk.GiveFilesAsync(outcome.Document.Id);
        var ticket = (await room.Orders.FindAsync(outcome.Ticket!))!;
        Assert.Equal(TicketState.Ready, ticket.Ticket.State);
        Assert.Equal(["Cyan", "Magenta", "Yellow", "Black"], ticket.Ticket.Separations.Select(s => s.Colour));
        Assert.Empty(_shelf!.All());
        Assert.Equal("Entered with its files.", (await desk.FindAsync(outcome.Document.Id))!.Document.Sentence);
    }

    [Fact]
    public async Task AFileThatLooksWrong_HoldsTheDocument_UntilAPersonAcceptsIt()
    {
        var (room, desk) = await StartAsync();
        var parts = await SeparationsAsync(aroundMm: 400);
        var outcome = await desk.TakeAsync(Arrival(XjdfText.Order(files: true)) with { Files = parts });
        await desk.GiveFilesAsync(outcome.Document.Id);
        var held = (await desk.FindAsync(outcome.Document.Id))!;
        Assert.Equal(DocumentState.Held, held.Document.State);
        Assert.Contains("accept it with a reason", held.Document.Sentence, StringComparison.Ordinal);
        Assert.Equal(4, _shelf!.All().Count());

        await desk.AnswerAsync(outcome.Document.Id, new DocumentAnswers { FilesAccepted = "Flat on the table, not around" }, remember: false, "Ann");
        await desk.GiveFilesAsync(outcome.Document.Id);
        Assert.Equal(TicketState.Ready, (await room.Orders.FindAsync(outcome.Ticket!))!.Ticket.State);
    }

    [Fact]
    public async Task AColleagueWhoGivesTheSameJob_MakesNoSecondOrder_ButAnotherCustomersJobIsAnother()
    {
        var (room, desk) = await StartAsync();
        var first = await SendAsync(XjdfText.Order());
        var byHand = await desk.TakeAsync(new DocumentArrival(DocumentDoor.Hand, "Bob", "again.xjdf", XjdfText.Bytes(XjdfText.Order(due: "2026-11-28T09:00:00Z"))));
        Assert.Equal((DocumentPurpose.Change, first.Ticket), (byHand.Document.Purpose, byHand.Ticket));
        var other = await desk.TakeAsync(new DocumentArrival(DocumentDoor.Hand, "Bob", "other.xjdf", XjdfText.Bytes(XjdfText.Order(company: "Kestrel Point Coffee"))));
        Assert.Equal(DocumentPurpose.Order, other.Document.Purpose);
        Assert.NotEqual(first.Ticket, other.Ticket);
        // Another program has its own names.
        var elsewhere = await desk.TakeAsync(new DocumentArrival(DocumentDoor.Http, "Another desk", "order.xjdf", XjdfText.Bytes(XjdfText.Order(due: "2026-11-29T09:00:00Z", company: "Saltgrass Seafood"))));
        Assert.Equal(DocumentPurpose.Order, elsewhere.Document.Purpose);
        await using var db = room.CreateDbContext();
        Assert.Equal(3, await db.Orders.CountAsync());
    }

    [Fact]
    public async Task APackageThatUnpacksToTooMuch_IsRefused_AndLeavesNothing()
    {
        var (room, desk) = await StartAsync();
        // A thousand times as much as its packed bytes.
        var bytes = XjdfText.Zip([("order.xjdf", XjdfText.Bytes(XjdfText.Order(files: true))), .. XjdfText.Cmyk.Split(' ').Select(c => ($"files/{c}.tif", new byte[1 << 20]))]);
        Assert.True(bytes.Length < 50_000);
        using var package = DocumentPackage.Open(new MemoryStream(bytes));
        var intake = new DocumentIntake(desk, _shelf!, mostUnpackedBytes: 3 << 20);
        var refused = await Assert.ThrowsAsync<DocumentRefusedException>(() => intake.TakeAsync(Arrival(XjdfText.Order(files: true)), package));
        Assert.Contains("when unpacked", refused.Message, StringComparison.Ordinal);
        Assert.Empty(_shelf!.All());
        await using var db = room.CreateDbContext();
        Assert.Equal(0, await db.ReceivedDocuments.CountAsync());
    }

    [Fact]
    public async Task AFileElsewhere_IsNotFetched()
    {
        await StartAsync();
        var outcome = await SendAsync(XjdfText.Order(colours: "Cyan", press: "").Replace("</XJDF>", """<ResourceSet Name="RunList" Usage="Input"><Resource><Part Separation="Cyan"/><RunList><FileSpec URL="http://169.254.169.254/latest"/></RunList></Resource></ResourceSet></XJDF>""", StringComparison.Ordinal));
        Assert.Contains(outcome.Notes, n => n.Contains("Nothing is fetched from there", StringComparison.Ordinal));
    }

    [Fact]
    public async Task AStoppedServer_GoesOnWithWhatWasTaken()
    {
        var (room, desk) = await StartAsync();
        var taken = await SendAsync(XjdfText.Order(files: true));
        await using (var db = room.CreateDbContext())
        {
            // As it lies after a stop between keeping and deciding.
            db.ReceivedDocuments.Add(new ReceivedDocument { Door = DocumentDoor.Http, Purpose = DocumentPurpose.Order, State = DocumentState.Taken, Sender = "Order desk", FileName = "b.xjdf", JobId = "ORD-9", Sha256 = "00", ReceivedUtc = room.Now });
            await db.SaveChangesAsync();
            db.DocumentTexts.Add(new DocumentText { DocumentId = taken.Document.Id + 1, Xjdf = XjdfText.Bytes(XjdfText.Order(jobId: "ORD-9")) });
            await db.SaveChangesAsync();
        }

        await desk.GoOnAsync();
        await using var after = room.CreateDbContext();
        Assert.Equal(2, await after.Orders.CountAsync());
        Assert.Equal(DocumentState.Done, (await after.ReceivedDocuments.SingleAsync(d => d.JobId == "ORD-9")).State);
    }

    public async ValueTask DisposeAsync()
    {
        if (_room is not null)
        {
            await _room.DisposeAsync();
            Directory.Delete(_folder, recursive: true);
        }
    }

    private async Task<(RoomFixture Room, DocumentDesk Desk)> StartAsync()
    {
        _room = await RoomFixture.CreateAsync();
        _shelf = new DocumentShelf(_folder);
        _desk = new DocumentDesk(
            _room, _room.Rooms, _room.Entry, new OrderChanges(_room, _room.Rooms, _room.Events, _room.Clock), new OrderCopies(_room, _room.Rooms, _room.Layouts, _room.Events), _shelf, _room.Clock);
        return (_room, _desk);
    }

    private Task<DocumentOutcome> SendAsync(string text) => _desk!.TakeAsync(Arrival(text));

    private static DocumentArrival Arrival(string text) => new(DocumentDoor.Http, "Order desk", "order.xjdf", XjdfText.Bytes(text));

    // The four process colours of a page by Ghostscript, at the length that a plate of Aster 170 on a sleeve of 400 mm has.
    private async Task<List<ArrivedPart>> SeparationsAsync(double aroundMm = 390.104)
    {
        var folder = Path.Combine(Path.GetTempPath(), $"separations-{Guid.NewGuid():N}");
        var parts = new List<ArrivedPart>();
        foreach (var file in GhostscriptJob.Make(folder, "order", 300, aroundMm, ppi: 150).Where(f => !f.Contains(GhostscriptJob.Spot, StringComparison.Ordinal)))
        {
            await using var stream = File.OpenRead(file);
            var (sha256, bytes) = await _shelf!.KeepAsync(stream, long.MaxValue, CancellationToken.None);
            Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(await File.ReadAllBytesAsync(file))), sha256);
            var colour = XjdfText.Cmyk.Split(' ').First(c => file.Contains($"({c})", StringComparison.Ordinal));
            parts.Add(new ArrivedPart($"files/{colour}.tif", Path.GetFileName(file), sha256, bytes));
        }

        Directory.Delete(folder, recursive: true);
        return parts;
    }
}

using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Arrivals;
using PlateTickets.Tickets.Tests.Orders.Separations;

namespace PlateTickets.Tickets.Tests.Orders.Arrivals;

public sealed class ArrivalDeskTests : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("drop-").FullName;
    private RoomFixture _room = null!;
    private ArrivalDesk _desk = null!;

    private string Drop => Path.Combine(_folder, "drop");

    private string Shelf => Path.Combine(_folder, "taken");

    public async Task InitializeAsync()
    {
        Directory.CreateDirectory(Drop);
        _room = await RoomFixture.CreateAsync();
        Restart();
    }

    public async Task DisposeAsync()
    {
        await _room.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task FileWithATicketsNumber_GoesToItsTicket_WhichGoesOnWaiting()
    {
        var ticket = await WaitingTicketAsync();
        await ArriveAsync($"{ticket}_Leaf Green.tif", 3);
        var view = (await _room.Orders.FindAsync(ticket))!;
        var separation = Assert.Single(view.Ticket.Separations);
        Assert.Equal(("Leaf Green", TicketState.WaitingForFiles), (separation.Colour, view.Ticket.State));
        Assert.NotNull(await _room.Orders.PreviewAsync(separation.Id));
        var row = Assert.Single(await _desk.ListAsync(done: true));
        Assert.Equal((ArrivalState.Given, ticket), (row.State, row.TicketNumber));
        Assert.Empty(Directory.GetFiles(Drop));

        // All files are here: a person says so.
        await _room.Entry.AddSeparationsAsync(ticket, [], "CSR");
        Assert.NotEqual(TicketState.WaitingForFiles, (await _room.Orders.FindAsync(ticket))!.Ticket.State);
    }

    [Fact]
    public async Task NameWithoutNumber_WithAWrongOne_OrOfATicketThatIsLaidOut_WaitsWithItsSentence()
    {
        var laidOut = (await _room.OrderAsync(["Cyan"])).Order.Number;
        var wrong = laidOut[..8] + (laidOut[8] == '0' ? '1' : '0');
        await ArriveAsync("front_Cyan.tif", 1);
        await ArriveAsync($"{wrong}_Cyan.tif", 2);
        await ArriveAsync($"{laidOut}_Magenta.tif", 3);
        var rows = (await _desk.ListAsync(done: false)).OrderBy(f => f.Id).ToList();
        Assert.All(rows, r => Assert.Equal(ArrivalState.Waiting, r.State));
        Assert.Contains("holds no ticket number", rows[0].Sentence, StringComparison.Ordinal);
        Assert.Contains($"“{wrong}”, which is no ticket number", rows[1].Sentence, StringComparison.Ordinal);
        Assert.Contains("laid out already", rows[2].Sentence, StringComparison.Ordinal);
        Assert.NotNull(await _desk.PreviewAsync(rows[0].Id));
    }

    [Fact]
    public async Task BadFile_IsListedWithItsError_AndKept()
    {
        await File.WriteAllTextAsync(Path.Combine(Drop, "notes.tif"), "These are notes.");
        await _desk.TakeAsync(Path.Combine(Drop, "notes.tif"));
        await _desk.DecideAsync();
        var row = Assert.Single(await _desk.ListAsync(done: false));
        Assert.Equal(ArrivalState.Refused, row.State);
        Assert.Contains("not a TIFF", row.Sentence, StringComparison.Ordinal);
        Assert.True(File.Exists(Path.Combine(Shelf, row.Sha256, "notes.tif")));
        await Assert.ThrowsAsync<PlateRoomException>(() => _desk.SetAsideAsync(row.Id, " ", "CSR"));
        await _desk.SetAsideAsync(row.Id, "sent by mistake", "CSR");
        Assert.Empty(await _desk.ListAsync(done: false));
        Assert.Contains("sent by mistake", Assert.Single(await _desk.ListAsync(done: true)).Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task CsrGivesAFile_WithItsColour()
    {
        var ticket = await WaitingTicketAsync();
        await ArriveAsync("front.tif", 5);
        var row = Assert.Single(await _desk.ListAsync(done: false));
        await Assert.ThrowsAsync<PlateRoomException>(() => _desk.GiveAsync(row.Id, "T1", "Cyan", "", "CSR"));
        await Assert.ThrowsAsync<OrderRefusedException>(() => _desk.GiveAsync(row.Id, ticket, "", "test", "CSR"));
        await _desk.GiveAsync(row.Id, ticket, "Cyan", "test", "CSR");
        Assert.Equal("Cyan", Assert.Single((await _room.Orders.FindAsync(ticket))!.Ticket.Separations).Colour);

        // A second CSR who still has the old list is told.
        var other = await WaitingTicketAsync();
        var late = await Assert.ThrowsAsync<PlateRoomException>(() => _desk.GiveAsync(row.Id, other, "Cyan", "test", "CSR 2"));
        Assert.Contains("front.tif is not waiting any more. On ticket", late.Message, StringComparison.Ordinal);
        await Assert.ThrowsAsync<PlateRoomException>(() => _desk.SetAsideAsync(row.Id, "not needed", "CSR 2"));
    }

    [Fact]
    public async Task SameFileAgain_IsOneRow_AndOneSeparation()
    {
        var ticket = await WaitingTicketAsync();
        await ArriveAsync($"{ticket}_Cyan.tif", 3);
        await ArriveAsync($"{ticket}_Cyan.tif", 3);
        Assert.Single(await _desk.ListAsync(done: true));
        Assert.Single((await _room.Orders.FindAsync(ticket))!.Ticket.Separations);
        Assert.Empty(Directory.GetFiles(Drop));
    }

    /// <summary>The server stops after each step; another one goes on. Nothing is lost and nothing is done twice.</summary>
    [Theory]
    [InlineData("while copying")]
    [InlineData("copied")]
    [InlineData("row made")]
    [InlineData("original deleted")]
    [InlineData("ticket changed")]
    public async Task StoppedServer_GoesOnWhereItWas(string after)
    {
        var ticket = await WaitingTicketAsync();
        var file = Path.Combine(Drop, $"{ticket}_Cyan.tif");
        Write(file, 7);
        switch (after)
        {
            case "while copying":
                await File.WriteAllBytesAsync(Path.Combine(Shelf, "0123.taking"), (await File.ReadAllBytesAsync(file))[..100]);
                break;
            case "copied":
                await new ArrivalShelf(Shelf).CopyAsync(file, CancellationToken.None);
                break;
            case "row made":
                var copy = await File.ReadAllBytesAsync(file);
                await _desk.TakeAsync(file);
                await File.WriteAllBytesAsync(file, copy);
                break;
            case "original deleted":
                await _desk.TakeAsync(file);
                break;
            default:
                await _desk.TakeAsync(file);
                await _desk.DecideAsync();
                await using (var db = _room.CreateDbContext())
                {
                    var row = await db.ArrivedFiles.SingleAsync();
                    row.State = ArrivalState.Taken;
                    await db.SaveChangesAsync();
                }

                break;
        }

        Restart();
        await _desk.GoOnAsync();
        if (File.Exists(file))
        {
            await _desk.TakeAsync(file);
            await _desk.DecideAsync();
        }

        Assert.Equal(ArrivalState.Given, Assert.Single(await _desk.ListAsync(done: true)).State);
        Assert.Empty(await _desk.ListAsync(done: false));
        Assert.Equal("Cyan", Assert.Single((await _room.Orders.FindAsync(ticket))!.Ticket.Separations).Colour);
        Assert.Empty(Directory.GetFiles(Drop));
        Assert.Empty(Directory.GetFiles(Shelf));
    }

    [Fact]
    public void PartialFiles_AreNotComplete_BeforeTheyStandStill()
    {
        var watch = new DropWatch(Drop, TimeSpan.FromSeconds(5), _room.Clock);
        var (growing, temporary, renamed) = (Path.Combine(Drop, "growing.tif"), Path.Combine(Drop, "other.tif.part"), Path.Combine(Drop, "other.tif"));
        File.WriteAllText(growing, "1");
        File.WriteAllText(temporary, "1");
        Assert.Empty(Look(0));
        Assert.Empty(Look(4));
        File.AppendAllText(growing, "2");
        Assert.Empty(Look(4));
        Assert.Empty(Look(4));
        Assert.Equal([growing], Look(4));
        File.Move(temporary, renamed);
        Assert.Equal([growing], Look(1));
        Assert.Equal([growing, renamed], Look(6).Order());

        IReadOnlyList<string> Look(int secondsLater)
        {
            _room.Clock.Advance(TimeSpan.FromSeconds(secondsLater));
            return watch.Complete();
        }
    }

    [Theory]
    [InlineData("_Cyan.tif", "Cyan")]
    [InlineData("-Leaf_Green.tif", "Leaf Green")]
    [InlineData("(Harvest Orange).tif", "Harvest Orange")]
    [InlineData(".tif", "")]
    public async Task Name_HoldsTheNumber_AndBehindItTheColour(string rest, string colour)
    {
        var ticket = await WaitingTicketAsync();
        Assert.Equal(new ArrivalName(ticket, null, colour), ArrivalName.Of(ticket + rest));
        Assert.Equal(ticket, ArrivalName.Of("new_" + ticket.ToLowerInvariant() + rest).Ticket);
    }

    [Fact]
    public async Task OldFiles_AreDeleted_OnceTheirTicketIsOverOrTheyWereSetAside()
    {
        var (open, over) = (await WaitingTicketAsync(), await WaitingTicketAsync());
        await ArriveAsync($"{open}_Cyan.tif", 1);
        await ArriveAsync($"{over}_Cyan.tif", 2);
        await ArriveAsync("waits.tif", 3);
        await ArriveAsync("aside.tif", 4);
        await _desk.SetAsideAsync((await _desk.ListAsync(done: false)).Single(f => f.FileName == "aside.tif").Id, "sent by mistake", "CSR");
        await using (var db = _room.CreateDbContext())
        {
            (await db.Tickets.SingleAsync(t => t.Order!.Number == over)).State = TicketState.Cancelled;
            await db.SaveChangesAsync();
        }

        var keep = TimeSpan.FromDays(90);
        _room.Clock.Advance(keep);
        await ArriveAsync($"{over}_Magenta.tif", 5);
        Assert.Equal(0, (await _desk.ClearAsync(keep)).Files);
        _room.Clock.Advance(TimeSpan.FromSeconds(1));
        var cleared = await _desk.ClearAsync(keep);
        Assert.Equal(2, cleared.Files);
        Assert.True(cleared.Bytes > 0);
        Assert.Equal(new[] { $"{open}_Cyan.tif", $"{over}_Magenta.tif", "waits.tif" }.Order(StringComparer.Ordinal), Directory.GetFiles(Shelf, "*", SearchOption.AllDirectories).Select(Path.GetFileName).OfType<string>().Order(StringComparer.Ordinal));
        Assert.Equal(3, Directory.GetDirectories(Shelf).Length);

        // What is known of them stays, and who deleted them can be read.
        Assert.Contains(await _desk.ListAsync(done: true), f => f.FileName == "aside.tif");
        await using var after = _room.CreateDbContext();
        Assert.Equal([$"{over}_Cyan.tif", "aside.tif"], (await after.AuditEntries.Where(e => e.Field == "(deleted the kept file of)").Select(e => e.Key).ToListAsync()).Order(StringComparer.Ordinal));
        Assert.Equal(0, (await _desk.ClearAsync(keep)).Files);
        Restart();
        await _desk.GoOnAsync();
        Assert.Equal(5, await after.ArrivedFiles.CountAsync());
    }

    private void Restart() => _desk = new ArrivalDesk(_room, _room.Entry, new ArrivalShelf(Shelf), _room.Clock);

    private async Task<string> WaitingTicketAsync() => await _room.Entry.EnterAsync(await _room.NewOrderAsync(), [], "test");

    private async Task ArriveAsync(string name, int seed)
    {
        var file = Path.Combine(Drop, name);
        Write(file, seed);
        Assert.True(await _desk.TakeAsync(file));
        await _desk.DecideAsync();
    }

    /// <summary>80 x 60 mm, uncompressed, with a bar that the seed places.</summary>
    private static void Write(string file, int seed)
    {
        const int width = 800;
        const int height = 600;
        var bytes = new byte[200 + (width / 8 * height)];
        TinyTiff.Write(
            bytes, (256, 4, width), (257, 4, height), (258, 3, 1), (259, 3, 1), (262, 3, 0), (273, 4, 200), (277, 3, 1), (278, 4, height), (279, 4, width / 8 * height),
            (282, 4, 100), (283, 4, 100), (296, 3, 3));
        bytes.AsSpan(200 + (seed * 1000), 500).Fill(0xFF);
        File.WriteAllBytes(file, bytes);
    }
}

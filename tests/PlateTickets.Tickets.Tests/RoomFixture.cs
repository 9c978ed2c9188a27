using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Demo;
using PlateTickets.Tickets.Handovers;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stations.Duty;
using PlateTickets.Tickets.Stock;

namespace PlateTickets.Tickets.Tests;

/// <summary>A room in a real database, made by the migrations, with a clock that the test moves.</summary>
public sealed class RoomFixture : IAsyncDisposable, IDbContextFactory<PlateRoomDb>
{
    private static readonly ConcurrentDictionary<(RoomStartKind Start, bool Played, int Hour, bool Past), Lazy<Task<TestDatabase>>> Filled = new();

    private readonly TestDatabase _database;
    private readonly DbContextOptions<PlateRoomDb> _options;

    private RoomFixture(int hour, TestDatabase database)
    {
        Clock = new FakeTimeProvider(new DateTimeOffset(2026, 11, 25, hour, 0, 0, TimeSpan.Zero));
        _database = database;
        var options = new DbContextOptionsBuilder<PlateRoomDb>();
        database.Use(options);
        options.AddInterceptors(Watch);
        _options = options.Options;
        Rooms = new RoomCatalog(this, Clock);
        Entry = new OrderEntry(this, Rooms, Events, Clock);
        Plans = new PlanKeeper(this, Rooms, new StageSpreads(this, Rooms, Clock), Book, Events, Clock);
        Study = new PlanStudy(Book, Plans, Events);
        Desk = new ScanDesk(this, Rooms, Events, Clock);
        Orders = new OrderQueries(this);
        Sheets = new SheetQueries(this);
        Layouts = new LayoutDesk(this, Rooms, Events, Clock);
        Stock = new StockDesk(this, Rooms, Clock);
        StockShelf = new StockQueries(this, Rooms, Layouts, Clock);
        Stages = new StageDesk(this, Events, Clock);
        Readings = new ReadingDesk(this, Rooms, new LampReadings(this, Rooms, Events, Clock), Events, Clock);
        Remakes = new RemakeDesk(this, Rooms, Layouts, Events, Clock);
        Board = new BoardState(this, Rooms, Book, Events, Clock);
        Remedies = new Remedies(Rooms, Book, Clock);
        Goals = new ShiftGoals(this, Clock);
        Shift = new ShiftBoard(this, Board, Rooms, Book, Remedies, Goals, Clock);
        Handovers = new HandoverDesk(this, Rooms, Book, Goals, Clock);
        Duty = new DutyDesk(this, Rooms, Events, Clock);
    }

    /// <summary>What is asked of the database, while the test wants to know.</summary>
    internal CommandWatch Watch { get; } = new();

    /// <summary>The database's file, where it is one.</summary>
    public string File => _database.File;

    /// <summary>The way to it, where it is a server's.</summary>
    public string Connection => _database.Connection;

    /// <summary>A Wednesday in a room on UTC; 08:00 unless asked otherwise, when the early shift is at work.</summary>
    public FakeTimeProvider Clock { get; }

    public RoomEvents Events { get; } = new();

    public RoomCatalog Rooms { get; }

    public OrderEntry Entry { get; }

    public PlanBook Book { get; } = new();

    public PlanKeeper Plans { get; }

    public PlanStudy Study { get; }

    public ScanDesk Desk { get; }

    public OrderQueries Orders { get; }

    public SheetQueries Sheets { get; }

    public BoardState Board { get; }

    public Remedies Remedies { get; }

    public ShiftGoals Goals { get; }

    public ShiftBoard Shift { get; }

    public HandoverDesk Handovers { get; }

    public DutyDesk Duty { get; }

    public LayoutDesk Layouts { get; }

    public StockDesk Stock { get; }

    public StockQueries StockShelf { get; }

    public StageDesk Stages { get; }

    public ReadingDesk Readings { get; }

    public RemakeDesk Remakes { get; }

    public DateTime Now => Clock.GetUtcNow().UtcDateTime;

    /// <summary>A room with the demo's machines, materials and presses but without its tickets; or with those of its last days, its past, or both; or empty.</summary>
    public static async Task<RoomFixture> CreateAsync(RoomStartKind start = RoomStartKind.Demo, bool played = false, int hour = 8, bool past = false)
    {
        var filled = await Filled.GetOrAdd((start, played, hour, past), key => new(() => FillAsync(key.Start, key.Played, key.Hour, key.Past))).Value;
        return new RoomFixture(hour, await filled.CopyAsync());
    }

    /// <summary>A room is filled once; every test that asks for such a one gets a copy.</summary>
    private static async Task<TestDatabase> FillAsync(RoomStartKind start, bool played, int hour, bool past)
    {
        var database = new TestDatabase();
        var fixture = new RoomFixture(hour, database);
        await using (var db = fixture.CreateDbContext())
        {
            await db.Database.MigrateAsync();
            await new RoomStart(fixture, fixture.Clock).FillAsync(start, TimeZoneInfo.Utc, withHistory: played, withPast: past);
            await database.RestAsync(db);
        }

        fixture.Rest();
        AppDomain.CurrentDomain.ProcessExit += (_, _) => database.DropAsync().GetAwaiter().GetResult();
        return database;
    }

    public PlateRoomDb CreateDbContext() => new(_options) { Clock = Clock };

    /// <summary>An order for press 1 whose plates wait to be laid out with others.</summary>
    public async Task<TicketView> OrderWaitingAsync(string[] colours, double acrossMm = 300, double aroundMm = 390.104, int dueHours = 30, int copies = 1)
    {
        var number = await Entry.EnterAsync(
            await NewOrderAsync(dueHours, copies), [.. colours.Select(c => Read(c, acrossMm, aroundMm))], "test", together: true);
        return (await Orders.FindAsync(number))!;
    }

    /// <summary>An order for press 1 on its usual material: one plate for each colour.</summary>
    public async Task<TicketView> OrderAsync(string[] colours, double acrossMm = 300, double aroundMm = 390.104, int dueHours = 30, int copies = 1)
    {
        var number = await Entry.EnterAsync(await NewOrderAsync(dueHours, copies), [.. colours.Select(c => Read(c, acrossMm, aroundMm))], "test");
        await Plans.ReplanAsync();
        return (await Orders.FindAsync(number))!;
    }

    public async Task<NewOrder> NewOrderAsync(int dueHours = 30, int copies = 1)
    {
        var room = await Rooms.GetAsync();
        var press = room.Presses[0];
        return new NewOrder
        {
            NewCustomer = "Test Customer",
            Title = "Test job",
            PressId = press.Id,
            CylinderId = press.Cylinders[0].Id,
            DueUtc = Now.AddHours(dueHours),
            Copies = copies,
        };
    }

    public static ReadSeparation Read(string colour, double acrossMm = 300, double aroundMm = 390.104, string acceptedBecause = "made for the test") => new(
        new SeparationFacts(
            $"job({colour}).tif", (int)(acrossMm * 100), (int)(aroundMm * 100), 100, 100, acrossMm, aroundMm, colour, ColourSource.FileName, "CCITT G4", InkIsZero: true),
        Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(colour))),
        1000,
        // Most tests are about something else than the length around.
        AcceptedBecause: acceptedBecause);

    /// <summary>A reading by somebody who has ticked the whole check list, unless asked otherwise.</summary>
    public Task<ScanReply> ScanAsync(
        string code, string machine, ScanAction action = ScanAction.Next, bool confirmed = false, Guid? id = null, CheckPoint ticked = CheckLists.All, string of = "") =>
        Desk.RecordAsync(new ScanRequest(id ?? Guid.NewGuid(), code, machine, action, "Test operator", Confirmed: confirmed) { Ticked = ticked, Of = of });

    /// <summary>Starts and finishes the sheet's next stage in its full time; returns both answers.</summary>
    public async Task<(ScanReply Start, ScanReply Finish)> PassAsync(string sheet, string machine)
    {
        var start = await ScanAsync(sheet, machine);
        var view = (await Sheets.FindAsync(sheet))!;
        var running = view.Sheet.Stages.Single(s => s.State == StageState.Running);
        Clock.Advance(TimeSpan.FromSeconds(running.TotalSeconds));
        var finish = await ScanAsync(sheet, machine);
        Clock.Advance(TimeSpan.FromSeconds(running.RestAfterSeconds));
        return (start, finish);
    }

    /// <summary>The machines of the demo room for a solvent sheet, in the order of its stages.</summary>
    public static (Station Station, string Machine)[] SolventRoute { get; } =
    [
        (Station.BackExposure, "frame-1"), (Station.Imaging, "imager-a"), (Station.FaceExposure, "frame-2"),
        (Station.Washout, "line-washer"), (Station.Drying, "dryer"), (Station.PostFinish, "finisher"), (Station.Cutting, "cutting-table"),
    ];

    public async ValueTask DisposeAsync()
    {
        Rest();
        await _database.DropAsync();
    }

    private void Rest()
    {
        Shift.Dispose();
        Board.Dispose();
        Plans.Dispose();
        Rooms.Dispose();
    }
}

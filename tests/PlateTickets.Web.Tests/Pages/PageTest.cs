using Bunit;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Options;
using MudBlazor;
using MudBlazor.Services;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Accounts.Audit;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Demo;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Exchange.Messages;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Tickets.Exchange.Status;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Arrivals;
using PlateTickets.Tickets.Orders.History;
using PlateTickets.Tickets.Orders.Lists;
using PlateTickets.Tickets.Orders.Search;
using PlateTickets.Tickets.Quality.Charts;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Reports;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Sites;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Tests;
using PlateTickets.Web.Administration;
using PlateTickets.Web.Audit;
using PlateTickets.Web.Exchange;
using PlateTickets.Web.Exchange.Documents;
using PlateTickets.Web.Exchange.Mail;
using PlateTickets.Web.Exchange.Webhooks;
using PlateTickets.Web.Orders;
using PlateTickets.Web.Shell;
using PlateTickets.Web.Startup;
using PlateTickets.Web.Startup.Backups;
using PlateTickets.Web.Startup.Nodes;
using PlateTickets.Web.Startup.Telemetry;

namespace PlateTickets.Web.Tests.Pages;

/// <summary>A page with a real room behind it, without a browser.</summary>
public abstract class PageTest : BunitContext, IAsyncLifetime
{
    private readonly CancellationTokenSource _stop = new();
    private readonly string _data = Path.Combine(Path.GetTempPath(), $"plate-room-{Guid.NewGuid():N}");
    private Task _following = Task.CompletedTask;

    protected RoomFixture Room { get; private set; } = null!;

    protected ArrivalDesk Arrivals { get; private set; } = null!;

    protected DocumentDesk Documents { get; private set; } = null!;

    protected DataFolder Data { get; private set; } = null!;

    protected BackupDesk Backups { get; private set; } = null!;

    protected virtual string BackupFolder => _data + "-backups";

    protected virtual ExchangeOptions Exchange => new() { AllowedHosts = ["127.0.0.1"] };

    protected virtual MailOptions Mail => new();

    protected virtual RoomStartKind Start => RoomStartKind.Demo;

    protected virtual bool Played => false;

    /// <summary>With two months of finished work.</summary>
    protected virtual bool Past => false;

    public async Task InitializeAsync()
    {
        DefaultWaitTimeout = TimeSpan.FromSeconds(30);
        Room = await RoomFixture.CreateAsync(Start, Played, past: Past);
        _following = Task.WhenAll(Room.Board.FollowAsync(_stop.Token), Room.Shift.FollowAsync(_stop.Token));
        JSInterop.Mode = JSRuntimeMode.Loose;
        Services.AddMudServices(o => o.PopoverOptions.CheckForPopoverProvider = false);
        Services.AddSingleton<TimeProvider>(Room.Clock);
        Services.AddSingleton<IDbContextFactory<PlateRoomDb>>(Room);
        Services.AddSingleton(Room.Events);
        Services.AddSingleton(Room.Rooms);
        Services.AddSingleton(Room.Board);
        Services.AddSingleton(Room.Shift);
        Services.AddSingleton(Room.Handovers);
        Services.AddSingleton(new TimelineQueries(Room, Room.Clock));
        Services.AddSingleton(Room.Entry);
        Services.AddSingleton(Room.Orders);
        Services.AddSingleton(new TicketSearch(Room));
        Services.AddSingleton(new TicketHistory(Room));
        Services.AddSingleton(new OrderChanges(Room, Room.Rooms, Room.Events, Room.Clock));
        Services.AddSingleton(new OrderCopies(Room, Room.Rooms, Room.Layouts, Room.Events));
        Services.AddSingleton(new OrderImport(Room, Room.Rooms, Room.Entry, Room.Clock));
        Services.AddSingleton(Room.Sheets);
        Services.AddSingleton(Room.Desk);
        Services.AddSingleton(Room.Layouts);
        Services.AddSingleton(Room.Stages);
        Services.AddSingleton(Room.Readings);
        Services.AddSingleton(Room.Remakes);
        Services.AddSingleton(Room.Stock);
        Services.AddSingleton(Room.StockShelf);
        var spreads = new StageSpreads(Room, Room.Rooms, Room.Clock);
        Services.AddSingleton(Room.Book);
        Services.AddSingleton(new PromiseDesk(Room.Rooms, spreads, Room.Book, Room.Clock));
        Services.AddSingleton(new WhatIf(Room.Rooms, Room.Book));
        Services.AddSingleton(new QualityQueries(Room, Room.Rooms));
        Services.AddSingleton(new RemakeFigures(Room, Room.Rooms));
        Services.AddSingleton(new ReportQueries(Room, Room.Rooms, Room.Clock));
        Services.AddSingleton(Room.Duty);
        Services.AddSingleton(new SiteSettings(Room, Room.Rooms, Room.Events));
        Services.AddSingleton(new LampReadings(Room, Room.Rooms, Room.Events, Room.Clock));
        Services.AddSingleton(new StepTests(Room, Room.Rooms, Room.Clock));
        Services.AddSingleton(new RecipeBook(Room, Room.Rooms, Room.Events, Room.Clock));
        Services.AddSingleton(SiteKey.Alone);
        var options = Options.Create(new PlateRoomOptions { DataFolder = _data });
        Services.AddSingleton(options);
        Services.AddSingleton(Arrivals = new ArrivalDesk(Room, Room.Entry, new ArrivalShelf(Path.Combine(_data, "taken")), Room.Clock));
        var folder = new DataFolder(options, new Folder(_data), SiteKey.Alone);
        folder.Make();
        Services.AddSingleton(folder);
        Services.AddSingleton(new SeparationIntake(folder, options));
        AddDocuments(folder, options);
        var log = new AuditLog(Room, Room.Clock);
        var audit = new AuditQueries(Room);
        Services.AddSingleton(log);
        Services.AddSingleton(audit);
        Services.AddSingleton(new AuditWords(Room));
        Data = folder;
        var database = new RoomDatabase(Options.Create(new DatabaseOptions()), folder, SiteKey.Alone);
        Backups = new BackupDesk(
            new BackupMaker(folder, new BackupCheck(Room.Clock), Room.Clock), new BackupCheck(Room.Clock),
            Options.Create(new BackupOptions { Folder = BackupFolder }), database, new Folder(_data), log, Room.Clock);
        Services.AddSingleton(Backups);
        var metrics = new RoomMetrics();
        Services.AddSingleton(metrics);
        Services.AddSingleton(new RoomGauges(metrics, Room.Board, Room.Book, new PlannerSeat(database, NullLogger<PlannerSeat>.Instance), Room.Clock));
        Services.AddSingleton(new ProgramStates(Backups, folder, database, Room, audit));
        Services.AddSingleton(Options.Create(Mail));
        Services.AddSingleton(Options.Create(Exchange));
        Services.AddSingleton<OutgoingHttp>();
        Services.AddSingleton<ISecretKeeper>(new SecretKeeper(new EphemeralDataProtectionProvider(), NullLogger<SecretKeeper>.Instance));
        Services.AddSingleton<WebhookDesk>();
        Services.AddSingleton<DeliveryBook>();
        Services.AddSingleton<OrderContacts>();
        Services.AddScoped<BrowserTools>();
        Services.AddScoped<Viewer>();
        Services.GetRequiredService<Viewer>().SignedIn("Tester", Rights.All.Aggregate((a, b) => a | b));
        // MudBlazor's fields open their lists in a popover, which needs its provider on the page.
        Render<MudPopoverProvider>();
    }

    private void AddDocuments(DataFolder folder, IOptions<PlateRoomOptions> options)
    {
        var shelf = new DocumentShelf(folder.Documents);
        var changes = new OrderChanges(Room, Room.Rooms, Room.Events, Room.Clock);
        Documents = new DocumentDesk(Room, Room.Rooms, Room.Entry, changes, new OrderCopies(Room, Room.Rooms, Room.Layouts, Room.Events), shelf, Room.Clock);
        var documentOptions = Options.Create(new DocumentOptions());
        var entries = new JobEntries(Room, Room.Book, Room.Clock);
        var xjmf = new XjmfDesk(
            Room, new DocumentIntake(Documents, shelf, options.Value.LongestFile), entries, new QueueChanges(Room, Documents, Room.Duty, changes), Room.Rooms, new OutgoingAddresses(new OutgoingHttp(Options.Create(new ExchangeOptions()))), Room.Clock);
        Services.AddSingleton(Documents);
        var exchange = Options.Create(new ExchangeOptions());
        Services.AddSingleton<IOptions<ExchangeOptions>>(exchange);
        Services.AddSingleton(new StatusLinks(Room, new SecretKeeper(new EphemeralDataProtectionProvider(), NullLogger<SecretKeeper>.Instance), Room.Clock));
        Services.AddSingleton<IOptions<DocumentOptions>>(documentOptions);
        Services.AddSingleton(new DocumentDoorway(xjmf, shelf, documentOptions));
    }

    /// <summary>
    /// After a change the room is read anew, by a follower or by the page, whoever asks first. Once it is there a page shows itself with its first rendering.
    /// </summary>
    public override IRenderedComponent<TComponent> Render<TComponent>(Action<ComponentParameterCollectionBuilder<TComponent>>? parameterBuilder = null)
    {
        Room.Rooms.GetAsync().AsTask().Wait();
        return base.Render(parameterBuilder);
    }

    /// <summary>Waits until something in the background has happened; ten seconds at most.</summary>
    protected static async Task UntilAsync(Func<bool> happened)
    {
        for (var i = 0; i < 1000 && !happened(); i++)
        {
            await Task.Delay(10);
        }

        Assert.True(happened(), "It did not happen within ten seconds.");
    }

    async Task IAsyncLifetime.DisposeAsync()
    {
        await base.DisposeAsync();
        await _stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => _following);
        await Room.DisposeAsync();
        Backups.Dispose();
        foreach (var folder in new[] { _data, _data + "-backups" }.Where(Directory.Exists))
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private sealed class Folder(string path) : Microsoft.AspNetCore.Hosting.IWebHostEnvironment
    {
        public string WebRootPath { get; set; } = path;

        public Microsoft.Extensions.FileProviders.IFileProvider WebRootFileProvider { get; set; } = new Microsoft.Extensions.FileProviders.NullFileProvider();

        public string EnvironmentName { get; set; } = Environments.Production;

        public string ApplicationName { get; set; } = "PlateTickets.Web";

        public string ContentRootPath { get; set; } = path;

        public Microsoft.Extensions.FileProviders.IFileProvider ContentRootFileProvider { get; set; } = new Microsoft.Extensions.FileProviders.NullFileProvider();
    }
}

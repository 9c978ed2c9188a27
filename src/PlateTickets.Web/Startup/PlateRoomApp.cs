using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.DataProtection.KeyManagement;
using Microsoft.AspNetCore.DataProtection.Repositories;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;
using MudBlazor;
using MudBlazor.Services;
using PlateTickets.Process;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Accounts.Audit;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Calendars;
using PlateTickets.Tickets.Demo;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Exchange.Messages;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Tickets.Exchange.Status;
using PlateTickets.Tickets.Handovers;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Arrivals;
using PlateTickets.Tickets.Orders.History;
using PlateTickets.Tickets.Orders.Lists;
using PlateTickets.Tickets.Orders.Search;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Quality.Charts;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Reports;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stations.Duty;
using PlateTickets.Tickets.Stock;
using PlateTickets.Web.Accounts;
using PlateTickets.Web.Administration;
using PlateTickets.Web.Api;
using PlateTickets.Web.Audit;
using PlateTickets.Web.Calendars;
using PlateTickets.Web.Exchange;
using PlateTickets.Web.Exchange.Documents;
using PlateTickets.Web.Exchange.Status;
using PlateTickets.Web.Handovers;
using PlateTickets.Web.Orders;
using PlateTickets.Web.Reports;
using PlateTickets.Web.Sheets;
using PlateTickets.Web.Shell;
using PlateTickets.Web.Sites;
using PlateTickets.Web.Startup.Backups;
using PlateTickets.Web.Startup.Nodes;

namespace PlateTickets.Web.Startup;

/// <summary>Builds and prepares the program. The tests start it through here too.</summary>
public static class PlateRoomApp
{
    public const string DefaultUrl = "http://localhost:5080";

    private const int FewestThreads = 32;

    private static readonly Dictionary<string, string> ShortOptions = new()
    {
        ["--room"] = $"{PlateRoomOptions.Section}:{nameof(PlateRoomOptions.Start)}",
        ["--site"] = SiteOptions.Key,
        ["--data"] = $"{PlateRoomOptions.Section}:{nameof(PlateRoomOptions.DataFolder)}",
    };

    /// <summary>The room that the settings speak of, or each site of a group that is served here.</summary>
    /// <exception cref="PlateRoomException">The settings of the sites are wrong.</exception>
    public static IReadOnlyList<WebApplication> BuildAll(string[] args)
    {
        var first = Begin(args);
        var sites = SiteOptions.Served(first.Configuration);
        return sites.Count == 0 ? [Build(first, args, customise: null)] : [.. sites.Select(site => Build([.. args, "--site", site.Value]))];
    }

    /// <summary>Prepares and runs them until they are told to stop; when one stops, all do.</summary>
    public static async Task RunAsync(IReadOnlyList<WebApplication> rooms)
    {
        foreach (var room in rooms)
        {
            await PrepareAsync(room);
            await room.StartAsync();
        }

        await Task.WhenAny(rooms.Select(r => r.WaitForShutdownAsync()));
        await Task.WhenAll(rooms.Select(r => r.StopAsync()));
    }

    private static WebApplicationBuilder Begin(string[] args)
    {
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions { Args = args, ApplicationName = typeof(PlateRoomApp).Assembly.GetName().Name });
        builder.Configuration.AddCommandLine(args, ShortOptions);
        return builder;
    }

    public static WebApplication Build(string[] args, Action<WebApplicationBuilder>? customise = null) => Build(Begin(args), args, customise);

    private static WebApplication Build(WebApplicationBuilder builder, string[] args, Action<WebApplicationBuilder>? customise)
    {
        // The plan's computations hold threads of the pool for seconds: a scan must not wait until the pool thinks of another one.
        ThreadPool.GetMinThreads(out var workers, out var ports);
        ThreadPool.SetMinThreads(Math.Max(workers, FewestThreads), ports);
        if (SiteOptions.Of(builder.Configuration) is { IsAlone: false } site)
        {
            SiteOptions.RequireServer(builder.Configuration);
            SiteOptions.Choose(builder.Configuration, site);
            // What is said on the command line counts, whatever the settings of the site.
            builder.Configuration.AddCommandLine(args, ShortOptions);
        }

        if (string.IsNullOrEmpty(builder.Configuration[WebHostDefaults.ServerUrlsKey]))
        {
            builder.WebHost.UseUrls(DefaultUrl);
        }

        builder.WebHost.UseStaticWebAssets();
        AddRoom(builder.Services);
        AddPages(builder.Services);
        PlateRoomApi.AddServices(builder.Services);
        RoomDoor.AddServices(builder.Services, builder.Configuration);
        Limits.AddServices(builder.Services);
        Hardening.AddServices(builder.Services);
        ExchangeServices.AddServices(builder.Services);
        Telemetry.RoomTelemetry.AddServices(builder.Services, builder.Configuration);
        customise?.Invoke(builder);
        var app = builder.Build();
        ListenRules.Check(app, app.Services.GetRequiredService<IOptions<PlateRoomOptions>>().Value);
        Use(app);
        return app;
    }

    /// <summary>Brings the database up to date and fills an empty one.</summary>
    public static Task PrepareAsync(WebApplication app)
    {
        app.Services.GetRequiredService<DataFolder>().Make();
        return app.Services.GetRequiredService<RoomDatabase>().AloneAsync(() => PrepareAloneAsync(app));
    }

    private static async Task PrepareAloneAsync(WebApplication app)
    {
        var options = app.Services.GetRequiredService<IOptions<PlateRoomOptions>>().Value;
        var databases = app.Services.GetRequiredService<IDbContextFactory<PlateRoomDb>>();
        await using (var db = await databases.CreateDbContextAsync())
        {
            var database = app.Services.GetRequiredService<RoomDatabase>();
            await database.MigrateAsync(db, pending =>
            {
                if (!database.IsPostgreSql && UpgradeCopy.Make(app.Services.GetRequiredService<DataFolder>(), pending) is { } copy)
                {
                    CopiedBefore(app.Logger, copy, null);
                }
            });
            if (await AuditChain.ChainEarlierAsync(db) is > 0 and var chained)
            {
                AuditChained(app.Logger, chained, null);
            }

            if (await TicketIndex.FillAsync(db) is > 0 and var indexed)
            {
                TicketsIndexed(app.Logger, indexed, null);
            }
        }

        var zone = options.TimeZone.Length == 0 ? TimeZoneInfo.Local : TimeZoneInfo.FindSystemTimeZoneById(options.TimeZone);
        var start = new RoomStart(databases, app.Services.GetRequiredService<TimeProvider>());
        if (await start.FillAsync(options.Start, zone))
        {
            RoomFilled(app.Logger, options.Start, null);
        }
    }

    private static readonly Action<ILogger, RoomStartKind, Exception?> RoomFilled =
        LoggerMessage.Define<RoomStartKind>(LogLevel.Information, new EventId(1, nameof(RoomFilled)), "A new room was made: {Start}");

    private static readonly Action<ILogger, long, Exception?> AuditChained =
        LoggerMessage.Define<long>(LogLevel.Information, new EventId(2, nameof(AuditChained)), "{Count} audit entries of an earlier version were chained");

    private static readonly Action<ILogger, int, Exception?> TicketsIndexed =
        LoggerMessage.Define<int>(LogLevel.Information, new EventId(3, nameof(TicketsIndexed)), "{Count} tickets of an earlier version can be found now");

    private static readonly Action<ILogger, string, Exception?> CopiedBefore =
        LoggerMessage.Define<string>(LogLevel.Information, new EventId(4, nameof(CopiedBefore)), "The room of an earlier version is brought up to date; as it was it lies in {File}");

    private static void AddRoom(IServiceCollection services)
    {
        services.AddOptions<PlateRoomOptions>().BindConfiguration(PlateRoomOptions.Section).ValidateDataAnnotations().ValidateOnStart();
        services.AddSingleton(TimeProvider.System);
        services.AddSingleton(provider => SiteOptions.Of(provider.GetRequiredService<IConfiguration>()));
        services.AddSingleton<DataFolder>();
        services.AddOptions<DatabaseOptions>().BindConfiguration(DatabaseOptions.Section).ValidateDataAnnotations().ValidateOnStart();
        services.AddSingleton<RoomDatabase>();
        services.AddDbContextFactory<PlateRoomDb>((provider, options) =>
            provider.GetRequiredService<RoomDatabase>().Use(options));
        // The keys lie with the room's data: they survive a new container, all nodes share them, and no other program does.
        services.AddDataProtection().SetApplicationName("PlateTickets");
        services.AddOptions<KeyManagementOptions>().Configure<RoomDatabase, IDbContextFactory<PlateRoomDb>, DataFolder, ILoggerFactory>((keys, database, databases, folder, logs) =>
            keys.XmlRepository = database.IsPostgreSql ? new DatabaseKeys(databases) : new FileSystemXmlRepository(new DirectoryInfo(folder.Keys), logs));
        services.AddSingleton<PlannerSeat>();
        services.AddSingleton<AuditLog>();
        services.AddSingleton<AuditQueries>();
        services.AddSingleton<AuditWords>();
        services.AddSingleton<ProgramStates>();
        services.AddOptions<BackupOptions>().BindConfiguration(BackupOptions.Section).ValidateDataAnnotations().ValidateOnStart();
        services.AddSingleton<BackupCheck>();
        services.AddSingleton<BackupMaker>();
        services.AddSingleton<BackupDesk>();
        services.AddSingleton<RoomEvents>();
        services.AddSingleton<RoomCatalog>();
        services.AddSingleton<BoardState>();
        services.AddSingleton<Remedies>();
        services.AddSingleton<ShiftGoals>();
        services.AddSingleton<ShiftBoard>();
        services.AddSingleton<HandoverDesk>();
        services.AddSingleton<TimelineQueries>();
        services.AddSingleton<OrderEntry>();
        services.AddSingleton<IdempotentCalls>();
        services.AddSingleton<OrderQueries>();
        services.AddSingleton<TicketSearch>();
        services.AddSingleton<TicketHistory>();
        services.AddSingleton<SheetQueries>();
        services.AddSingleton<LayoutDesk>();
        services.AddSingleton<StockDesk>();
        services.AddSingleton<StockQueries>();
        services.AddSingleton<StageSpreads>();
        services.AddSingleton<PlanBook>();
        services.AddSingleton<PlanKeeper>();
        services.AddSingleton<PlanStudy>();
        services.AddSingleton<PromiseDesk>();
        services.AddSingleton<WhatIf>();
        services.AddSingleton<DutyDesk>();
        services.AddSingleton<ScanDesk>();
        services.AddSingleton<StageDesk>();
        services.AddSingleton<ReadingDesk>();
        services.AddSingleton<RemakeDesk>();
        services.AddSingleton<QualityQueries>();
        services.AddSingleton<RemakeFigures>();
        services.AddSingleton<ReportQueries>();
        services.AddSingleton<SiteSettings>();
        services.AddSingleton<LampReadings>();
        services.AddSingleton<StepTests>();
        services.AddSingleton<RecipeBook>();
        services.AddSingleton<SeparationIntake>();
        services.AddSingleton(provider => new ArrivalShelf(provider.GetRequiredService<DataFolder>().Taken));
        services.AddSingleton<ArrivalDesk>();
        services.AddSingleton<TravelerDesk>();
        services.AddSingleton<ConfirmationDesk>();
        services.AddSingleton<OrderChanges>();
        services.AddSingleton<OrderCopies>();
        services.AddSingleton<OrderImport>();
        services.AddSingleton<CalendarFeeds>();
        services.AddSingleton<CalendarQueries>();
        services.AddSingleton<ReportDesk>();
        AddDocuments(services);
        services.AddSingleton<HandoverPrint>();
        services.AddHostedService<RunningMarkHolder>();
        services.AddHostedService<BoardFollower>();
        services.AddHostedService(provider => provider.GetRequiredService<PlannerSeat>());
        services.AddHostedService<NodeWire>();
        services.AddHostedService<PlanLoop>();
        services.AddSingleton<SpareCores>();
        services.AddHostedService<PlanStudyLoop>();
        services.AddHostedService<RemedyLoop>();
        services.AddHostedService<DropFolderLoop>();
        services.AddHostedService<BackupLoop>();
        services.AddSingleton<GroupStandings>();
        services.AddHostedService<SiteTeller>();
    }

    private static void AddDocuments(IServiceCollection services)
    {
        services.AddOptions<DocumentOptions>().BindConfiguration(DocumentOptions.Section).ValidateDataAnnotations().ValidateOnStart();
        services.AddSingleton(provider => new DocumentShelf(provider.GetRequiredService<DataFolder>().Documents));
        services.AddSingleton<DocumentDesk>();
        services.AddSingleton(provider => new DocumentIntake(
            provider.GetRequiredService<DocumentDesk>(), provider.GetRequiredService<DocumentShelf>(), provider.GetRequiredService<IOptions<DocumentOptions>>().Value.MostUnpacked));
        services.AddSingleton<JobEntries>();
        services.AddSingleton<QueueChanges>();
        services.AddSingleton<ReturnedXjdf>();
        services.AddSingleton<IOutgoingAddresses, OutgoingAddresses>();
        services.AddSingleton<IDeliverySender, SignalSender>();
        services.AddSingleton<IDeliverySender, ReturnSender>();
        services.AddSingleton<StatusLinks>();
        services.AddSingleton<IStatusAddresses, StatusAddresses>();
        services.AddSingleton<XjmfDesk>();
        services.AddSingleton<DocumentDoorway>();
        services.AddHostedService<DocumentLoop>();
        services.AddHostedService<DocumentFolderLoop>();
    }

    private static void AddPages(IServiceCollection services)
    {
        // Dropped files come over the circuit; with larger messages a large file arrived 1.4 times as fast.
        services.AddRazorComponents().AddInteractiveServerComponents().AddHubOptions(hub => hub.MaximumReceiveMessageSize = 512 * 1024);
        services.AddMudServices(mud =>
        {
            mud.SnackbarConfiguration.PositionClass = Defaults.Classes.Position.BottomCenter;
            mud.SnackbarConfiguration.VisibleStateDuration = 6000;
        });
        services.AddScoped<BrowserTools>();
        services.AddScoped<Viewer>();
    }

    private static void Use(WebApplication app)
    {
        Hardening.Use(app);
        // People get a page; programs get problem details, which are written first and so stay as they are.
        app.UseStatusCodePagesWithReExecute(Urls.NotFound, createScopeForStatusCodePages: true);
        app.UseWhen(c => PlateRoomApi.Owns(c.Request.Path), api => api.UseStatusCodePages());
        app.UseExceptionHandler();
        app.UseHostFiltering();
        app.UseAuthentication();
        app.UseRateLimiter();
        app.UseAuthorization();
        app.UseAntiforgery();
        app.MapStaticAssets().AllowAnonymous();
        DoorForms.Map(app);
        SingleSignOn.Map(app);
        PlateRoomApi.Map(app);
        XjmfAddresses.Map(app);
        CalendarAddress.Map(app);
        Telemetry.RoomTelemetry.Map(app);
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode(server => server.ContentSecurityFrameAncestorsPolicy = null);
    }
}

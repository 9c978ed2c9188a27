using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets;

namespace PlateTickets.Web.Startup.Commands;

/// <summary>The room that a command works on: the program's services without its pages and its background work.</summary>
internal sealed class CommandRoom(string[] settings, TextWriter output, TextWriter errors) : IAsyncDisposable
{
    private WebApplication? _app;

    public TextWriter Output => output;

    public TextWriter Errors => errors;

    /// <summary>Who acts, for the audit.</summary>
    public static string Who => $"{Environment.UserName} at the command line";

    public IServiceProvider Services => App.Services;

    public DataFolder Folder => Services.GetRequiredService<DataFolder>();

    /// <summary>Every address of the program.</summary>
    public IEnumerable<Endpoint> Endpoints => ((IEndpointRouteBuilder)App).DataSources.SelectMany(s => s.Endpoints);

    private WebApplication App => _app ??= PlateRoomApp.Build(settings, builder =>
    {
        // What a command prints is for people and scripts; the log goes beside it.
        builder.Logging.SetMinimumLevel(LogLevel.Warning);
        builder.Logging.AddConsole(console => console.LogToStandardErrorThreshold = LogLevel.Trace);
    });

    /// <summary>Brings the database up to date, and makes and fills it where there is none, as the start of the program does.</summary>
    public Task PrepareAsync() => PlateRoomApp.PrepareAsync(App);

    /// <summary>A context on the room that is there.</summary>
    /// <exception cref="PlateRoomException">There is no room, or an older or newer program made it.</exception>
    public async Task<PlateRoomDb> OpenAsync(CancellationToken cancel)
    {
        var database = Services.GetRequiredService<RoomDatabase>();
        if (!database.IsPostgreSql && !File.Exists(Folder.Database))
        {
            throw new PlateRoomException($"There is no room in {Folder.Root}: name its folder with --data FOLDER.");
        }

        var db = await Services.GetRequiredService<IDbContextFactory<PlateRoomDb>>().CreateDbContextAsync(cancel);
        if ((await db.Database.GetPendingMigrationsAsync(cancel)).Any())
        {
            await db.DisposeAsync();
            throw new PlateRoomException($"The room in {(database.IsPostgreSql ? database.Place : Folder.Root)} was made by an older version. Start the program once: it brings the room up to date.");
        }

        return db;
    }

    public async ValueTask DisposeAsync()
    {
        if (_app is not null)
        {
            await _app.DisposeAsync();
        }
    }
}

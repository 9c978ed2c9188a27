using System.Collections.Concurrent;
using System.Net.Http.Headers;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Time.Testing;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web.Startup;

namespace PlateTickets.Tests.Shared;

/// <summary>The program as it is, on a free loopback port, with a database of its own and a clock that the test moves.</summary>
internal sealed class RoomServer : IAsyncDisposable
{
    private static readonly ConcurrentDictionary<string, Lazy<Task<string>>> Filled = new();

    // Wednesday 08:00: the early shift is at work.
    public static readonly DateTimeOffset Morning = new(2026, 11, 25, 8, 0, 0, TimeSpan.Zero);

    private readonly WebApplication _app;
    private readonly string _data;

    private RoomServer(WebApplication app, string data, FakeTimeProvider clock)
    {
        _app = app;
        _data = data;
        Clock = clock;
    }

    public FakeTimeProvider Clock { get; }

    public string Url { get; private set; } = "";

    /// <summary>What the program is made of, to bring about what no outsider can.</summary>
    public IServiceProvider Services => _app.Services;

    /// <summary>A program that may do what these roles may.</summary>
    public async Task<HttpClient> ClientAsync(Role roles) => new()
    {
        BaseAddress = new Uri(Url),
        DefaultRequestHeaders = { Authorization = new AuthenticationHeaderValue("Bearer", await KeyAsync(roles)) },
    };

    /// <summary>A new API key with these roles.</summary>
    public Task<string> KeyAsync(Role roles) =>
        _app.Services.GetRequiredService<ApiKeys>().CreateAsync($"Test {Guid.NewGuid():N}", roles, TimeSpan.FromDays(1), "Test");

    /// <param name="room">demo or empty.</param>
    /// <param name="customise">More services of the test.</param>
    /// <param name="more">More arguments.</param>
    public static Task<RoomServer> StartAsync(string room = "demo", Action<WebApplicationBuilder>? customise = null, params string[] more) =>
        StartInAsync(Path.Combine(Path.GetTempPath(), $"plate-room-{Guid.NewGuid():N}"), room, customise, more);

    /// <summary>The same in a data folder of the test's choice; a room that lies there stays.</summary>
    public static async Task<RoomServer> StartInAsync(string data, string room = "demo", Action<WebApplicationBuilder>? customise = null, params string[] more)
    {
        var clock = new FakeTimeProvider(Morning);
        if (!File.Exists(Path.Combine(data, "plate-room.db")) && !more.Any(m => m.StartsWith("--Room:", StringComparison.OrdinalIgnoreCase) || m.StartsWith("--Database:", StringComparison.OrdinalIgnoreCase)))
        {
            await PutAsync(room, data);
        }

        var app = Build(room, data, clock, customise, more);
        await PlateRoomApp.PrepareAsync(app);
        await app.StartAsync();
        var server = new RoomServer(app, data, clock)
        {
            Url = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First(),
        };
        return server;
    }

    /// <summary>Puts a room into a data folder as it is when nobody has worked in it yet.</summary>
    public static async Task PutAsync(string room, string data)
    {
        Directory.CreateDirectory(data);
        File.Copy(await Filled.GetOrAdd(room, key => new(() => FillAsync(key))).Value, Path.Combine(data, "plate-room.db"));
    }

    // A test needs a plan, not the best one: searching for it would take the cores from the other tests.
    private static WebApplication Build(string room, string data, FakeTimeProvider clock, Action<WebApplicationBuilder>? customise, string[] more) => PlateRoomApp.Build(
        ["--urls", "http://127.0.0.1:0", "--contentRoot", Path.Combine(Repository.Root, "src", "PlateTickets.Web"), "--room", room, "--data", data, "--Room:TimeZone", "UTC", "--Room:ImproveSeconds", "1", .. more],
        builder =>
        {
            builder.Services.Replace(ServiceDescriptor.Singleton<TimeProvider>(clock));
            builder.Logging.SetMinimumLevel(LogLevel.Warning);
            customise?.Invoke(builder);
        });

    /// <summary>A room is filled once; every test that asks for such a one gets a copy.</summary>
    private static async Task<string> FillAsync(string room)
    {
        var data = Path.Combine(Path.GetTempPath(), $"plate-room-{Guid.NewGuid():N}");
        await using (var app = Build(room, data, new FakeTimeProvider(Morning), null, []))
        {
            await PlateRoomApp.PrepareAsync(app);
        }

        // One file without a log beside it can be copied.
        var whole = Path.Combine(Path.GetTempPath(), $"plate-room-filled-{Guid.NewGuid():N}.db");
        await using (var file = new Microsoft.Data.Sqlite.SqliteConnection($"Data Source={Path.Combine(data, "plate-room.db")};Pooling=False"))
        {
            await file.OpenAsync();
            await using var command = file.CreateCommand();
            command.CommandText = "VACUUM INTO $whole";
            command.Parameters.AddWithValue("$whole", whole);
            await command.ExecuteNonQueryAsync();
        }

        AppDomain.CurrentDomain.ProcessExit += (_, _) => File.Delete(whole);
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(data, recursive: true);
        return whole;
    }

    /// <summary>Stops it. A test may do so before its end.</summary>
    public async ValueTask DisposeAsync()
    {
        if (!Directory.Exists(_data))
        {
            return;
        }

        await _app.StopAsync();
        await _app.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(_data, recursive: true);
    }
}

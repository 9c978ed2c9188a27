using System.Net.Http.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Time.Testing;
using PlateTickets.Tests.Shared;
using PlateTickets.Web.Startup;

namespace PlateTickets.Web.Tests;

/// <summary>The program on a free loopback port with the demo's machines, spoken to as an outsider would.</summary>
public sealed class HttpRoom : IAsyncLifetime
{
    private readonly string _data = Path.Combine(Path.GetTempPath(), $"plate-room-{Guid.NewGuid():N}");
    private WebApplication? _app;

    // Wednesday 08:00: the early shift is at work.
    public FakeTimeProvider Clock { get; } = new(new DateTimeOffset(2026, 11, 25, 8, 0, 0, TimeSpan.Zero));

    public HttpClient Http { get; } = new();

    public async Task InitializeAsync()
    {
        _app = PlateRoomApp.Build(
            ["--urls", "http://127.0.0.1:0", "--contentRoot", Path.Combine(Repository.Root, "src", "PlateTickets.Web"), "--data", _data, "--Room:TimeZone", "UTC"],
            builder =>
            {
                builder.Services.Replace(ServiceDescriptor.Singleton<TimeProvider>(Clock));
                builder.Logging.SetMinimumLevel(LogLevel.Warning);
            });
        await PlateRoomApp.PrepareAsync(_app);
        await _app.StartAsync();
        Http.BaseAddress = new Uri(_app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First());
    }

    /// <summary>A form with files as parts.</summary>
    public static MultipartFormDataContent Form(params IEnumerable<(string Name, byte[] Bytes)> files)
    {
        var form = new MultipartFormDataContent();
        foreach (var (name, bytes) in files)
        {
            form.Add(new ByteArrayContent(bytes), "files", name);
        }

        return form;
    }

    public Task<HttpResponseMessage> EnterOrderAsync(object? change = null) => Http.PostAsJsonAsync("/api/v1/orders", change ?? new
    {
        customer = "Northmere Dairy",
        title = "Butter foil 250 g",
        press = "Press 1, wide film",
        cylinder = "Sleeve 400",
        due = "2026-11-27T14:00:00+01:00",
        copies = 1,
    });

    public async Task DisposeAsync()
    {
        Http.Dispose();
        await _app!.StopAsync();
        await _app.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(_data, recursive: true);
    }
}

using System.Net.Http.Headers;
using System.Net.Http.Json;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Tests;

/// <summary>The running program, spoken to over HTTP as an outsider would.</summary>
public sealed class HttpRoom : IAsyncLifetime
{
    private RoomServer? _server;

    internal RoomServer Server => _server!;

    public HttpClient Http { get; } = new();

    public async Task InitializeAsync()
    {
        _server = await RoomServer.StartAsync();
        Http.BaseAddress = new Uri(_server.Url);
        Http.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", await _server.KeyAsync(Role.Manager));
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
        await _server!.DisposeAsync();
    }
}

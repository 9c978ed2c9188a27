using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Http.Connections;
using Microsoft.AspNetCore.SignalR.Client;
using Microsoft.AspNetCore.SignalR.Protocol;
using Microsoft.Extensions.DependencyInjection;

namespace PlateTickets.Benchmarks.Boards;

/// <summary>One viewer: a real circuit of the program's page over a WebSocket, as a browser opens it. Each drawing is acknowledged at once; nothing is drawn.</summary>
internal sealed partial class BoardCircuit : IAsyncDisposable
{
    private readonly HubConnection _hub;
    private readonly Lock _gate = new();
    private byte[] _wanted = [];
    private long _seenTicks;

    private BoardCircuit(HubConnection hub) => _hub = hub;

    /// <summary>How many drawings came, and their bytes.</summary>
    public int Batches { get; private set; }

    public long Bytes { get; private set; }

    public string Error { get; private set; } = "";

    /// <summary>When the wanted text came, in ticks of <see cref="Stopwatch"/>; 0 while it has not.</summary>
    public long SeenTicks
    {
        get
        {
            lock (_gate)
            {
                return _seenTicks;
            }
        }
    }

    public static async Task<BoardCircuit> OpenAsync(Uri room, string page, CookieContainer cookies)
    {
        string html;
        using (var http = new HttpClient(new HttpClientHandler { CookieContainer = cookies }) { BaseAddress = room })
        {
            html = await http.GetStringAsync(page);
        }

        var markers = $"[{string.Join(',', Marker().Matches(html).Select(m => m.Groups[1].Value))}]";
        var state = State().Match(html) is { Success: true } kept ? kept.Groups[1].Value : "";
        var builder = new HubConnectionBuilder().WithUrl(new Uri(room, "/_blazor"), options =>
        {
            options.Cookies = cookies;
            options.Transports = HttpTransportType.WebSockets;
        });
        builder.Services.AddSingleton<IHubProtocol, CircuitProtocol>();
        var circuit = new BoardCircuit(builder.Build());
        circuit.Listen();
        await circuit._hub.StartAsync();
        var id = await circuit._hub.InvokeAsync<string?>("StartCircuit", room.ToString(), new Uri(room, page).ToString(), markers, state);
        return id is null ? throw new InvalidOperationException($"The server started no circuit. {circuit.Error}") : circuit;
    }

    /// <summary>From now on a drawing that holds this text counts.</summary>
    public void Want(string text)
    {
        lock (_gate)
        {
            (_wanted, _seenTicks) = (Encoding.UTF8.GetBytes(text), 0);
        }
    }

    public async ValueTask DisposeAsync() => await _hub.DisposeAsync();

    private void Listen()
    {
        _hub.On<long, byte[]>("JS.RenderBatch", DrawnAsync);
        _hub.On<string>("JS.Error", error => Error = error);
        // Nothing a board asks of its browser has an answer that it needs.
        _hub.On<long, string, string, int, long, int>("JS.BeginInvokeJS", (call, _, _, _, _, _) => call == 0
            ? Task.CompletedTask
            : _hub.SendAsync("EndInvokeJSFromDotNet", call, true, string.Create(CultureInfo.InvariantCulture, $"[{call},true,null]")));
        _hub.On<int, string>("JS.AttachComponent", (_, _) => { });
        _hub.On<string>("JS.EndInvokeDotNet", _ => { });
    }

    private Task DrawnAsync(long batch, byte[] drawing)
    {
        var at = Stopwatch.GetTimestamp();
        lock (_gate)
        {
            Batches++;
            Bytes += drawing.Length;
            if (_seenTicks == 0 && _wanted.Length > 0 && drawing.AsSpan().IndexOf(_wanted) >= 0)
            {
                _seenTicks = at;
            }
        }

        return _hub.SendAsync("OnRenderCompleted", batch, null);
    }

    [GeneratedRegex("<!--Blazor:(\\{\"type\":\"server\".*?\\})-->")]
    private static partial Regex Marker();

    [GeneratedRegex("<!--Blazor-Server-Component-State:(.*?)-->")]
    private static partial Regex State();
}

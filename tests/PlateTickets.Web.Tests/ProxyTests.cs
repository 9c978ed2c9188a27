using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net;
using System.Net.Http.Json;
using System.Net.WebSockets;
using System.Text;
using System.Text.Json;
using Npgsql;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web.Tests.Accounts;
using PlateTickets.Web.Tests.OldRooms;
using Xunit.Abstractions;

namespace PlateTickets.Web.Tests;

/// <summary>Two nodes on one PostgreSQL behind a real nginx, set up as docs/nodes.md says it.</summary>
public sealed class ProxyTests(PostgresServer server, ITestOutputHelper output) : IClassFixture<PostgresServer>, IAsyncLifetime
{
    private const int Browsers = 24;
    private const int Rounds = 3;
    private const int Before = 40;
    private const int After = 60;

    private readonly List<string> _folders = [];
    private string[] _settings = [];
    private int _circuits;
    private ProgramProcess _first = null!;
    private ProgramProcess _second = null!;
    private ProxyServer _proxy = null!;

    public async Task InitializeAsync()
    {
        _settings = ["--Database:Provider", "PostgreSql", "--Database:ConnectionString", server.Connection($"plates-{Guid.NewGuid():N}"), "--Room:BehindProxy", "true", "--Room:TimeZone", "UTC"];
        _first = Node();
        _second = Node();
        await OldRoom.MakeAsync(_settings[3]);
        await Task.WhenAll(_first.StartAsync(), _second.StartAsync());
        _proxy = await ProxyServer.StartAsync(_first, _second);
    }

    public async Task DisposeAsync()
    {
        await _proxy.DisposeAsync();
        await _first.DisposeAsync();
        await _second.DisposeAsync();
        _folders.ForEach(f => Directory.Delete(f, recursive: true));
    }

    [Fact]
    public async Task ABrowserStaysOnOneNode_SignInHoldsOnBoth_AndANodeThatDiesIsStoodInFor()
    {
        // Browsers behind one address: each stays where it was, and both nodes have some.
        var visitors = Enumerable.Range(0, Browsers).Select(_ => new Visitor(_proxy.Url, _proxy.Handler())).ToList();
        for (var round = 0; round < Rounds; round++)
        {
            foreach (var visitor in visitors)
            {
                using var page = await visitor.GetAsync("/sign-in");
                Assert.Equal(HttpStatusCode.OK, page.StatusCode);
            }
        }

        var rounds = (await _proxy.AnsweredAsync("/sign-in", Browsers * Rounds)).Chunk(Browsers).ToList();
        Assert.All(rounds, r => Assert.Equal(rounds[0], r));
        Assert.Equal(new[] { _first.Port, _second.Port }.Order(), rounds[0].Distinct().Order());
        Assert.Single(visitors[0].Cookies.GetCookies(new Uri(_proxy.Url)), c => c is { Name: "plate_node", Secure: true, HttpOnly: true });

        // What was asked by https through another name stays so: cookies are for https only, and the way back leads to the proxy.
        var person = visitors[0];
        using (var signedIn = await person.SubmitAsync("/sign-in", $"input[value={Role.Manager}]", []))
        {
            Assert.Equal(HttpStatusCode.Redirect, signedIn.StatusCode);
        }

        Assert.True(person.Cookies.GetCookies(new Uri(_proxy.Url))["plate-room"]!.Secure);
        using (var asked = await visitors[1].GetAsync("/account"))
        {
            Assert.StartsWith($"{_proxy.Url}/sign-in", asked.Headers.Location!.ToString(), StringComparison.Ordinal);
        }

        // Nobody can say from outside that he came by another name.
        using (var lie = new HttpRequestMessage(HttpMethod.Get, "/account") { Headers = { { "X-Forwarded-Host", "elsewhere.example" }, { "X-Forwarded-For", "203.0.113.9" } } })
        using (var answer = await visitors[1].SendAsync(lie))
        {
            Assert.StartsWith($"{_proxy.Url}/sign-in", answer.Headers.Location!.ToString(), StringComparison.Ordinal);
        }

        // A circuit.
        var (circuit, node) = await CircuitAsync(person);
        using (circuit)
        {
            Assert.Equal(rounds[0][0], node);
            Assert.Equal("Demo manager", await person.NameAsync());

            // Its node dies under scans that go through the proxy.
            var survivor = node == _first.Port ? _second : _first;
            var (scans, key) = (new ConcurrentDictionary<Guid, string>(), await ProgramProcess.MakeKeyAsync("operator", [.. _settings, "--data", _folders[0]]));
            using var stop = new CancellationTokenSource();
            var clients = Enumerable.Range(0, 3).Select(i => ScanAsync(key, i, scans, stop.Token)).ToList();
            await UntilAsync(() => scans.Count >= Before, clients);
            await (survivor == _first ? _second : _first).KillAsync();
            var killed = scans.Count;
            await UntilAsync(() => scans.Count >= killed + After, clients);
            await stop.CancelAsync();
            var (again, lost) = (await Task.WhenAll(clients)).Aggregate((0, 0), (sum, c) => (sum.Item1 + c.SentAgain, sum.Item2 + c.Open));
            output.WriteLine($"{killed} scans were answered before the node died and {scans.Count - killed} after; {again} were sent again, {lost} were open at the end.");

            // Its browsers are served by the other node, and are signed in there.
            Assert.Equal("Demo manager", await person.NameAsync());
            Assert.Equal(survivor.Port, (await _proxy.AnsweredAsync("/account", 4))[^1]);
            using var end = new CancellationTokenSource(TimeSpan.FromSeconds(30));
            await Assert.ThrowsAnyAsync<WebSocketException>(async () =>
            {
                while ((await circuit.ReceiveAsync(new byte[4096], end.Token)).MessageType != WebSocketMessageType.Close)
                {
                }

                throw new WebSocketException("closed");
            });
            var (second, other) = await CircuitAsync(person);
            second.Dispose();
            Assert.Equal(survivor.Port, other);

            // Every acknowledged scan is there, once, as it was told.
            var stored = await StoredAsync();
            Assert.All(scans, s => Assert.Equal(s.Value, stored[s.Key]));
        }

        visitors.ForEach(v => v.Dispose());
    }

    private ProgramProcess Node()
    {
        _folders.Add(Directory.CreateTempSubdirectory("plate-room-").FullName);
        return new ProgramProcess([.. _settings, "--data", _folders[^1]]);
    }

    // As the browser's script does it: negotiate, open the socket, shake hands (the hub protocol of SignalR).
    private async Task<(ClientWebSocket Socket, int Node)> CircuitAsync(Visitor visitor)
    {
        using var asked = await visitor.SendAsync(new HttpRequestMessage(HttpMethod.Post, "/_blazor/negotiate?negotiateVersion=1"));
        var token = JsonDocument.Parse(await asked.Content.ReadAsStringAsync()).RootElement.GetProperty("connectionToken").GetString();
        var socket = new ClientWebSocket();
        socket.Options.Cookies = visitor.Cookies;
        socket.Options.RemoteCertificateValidationCallback = (_, shown, _, _) => _proxy.IsOurs(shown);
        await socket.ConnectAsync(new Uri($"wss://127.0.0.1:{_proxy.Port}/_blazor?id={token}"), default);
        await socket.SendAsync(Encoding.UTF8.GetBytes("{\"protocol\":\"blazorpack\",\"version\":1}\u001e"), WebSocketMessageType.Text, true, default);
        var reply = new byte[256];
        using var soon = new CancellationTokenSource(TimeSpan.FromSeconds(30));
        var got = await socket.ReceiveAsync(reply, soon.Token);
        Assert.Equal("{}\u001e", Encoding.UTF8.GetString(reply, 0, got.Count));
        return (socket, (await _proxy.AnsweredAsync("/_blazor/negotiate", ++_circuits))[^1]);
    }

    /// <summary>Scans as a tablet does: what got no answer is sent again under the same id.</summary>
    private async Task<(int SentAgain, int Open)> ScanAsync(string key, int seed, ConcurrentDictionary<Guid, string> answered, CancellationToken stop)
    {
        var random = new Random(seed);
        // A program keeps no cookies: each of its calls may come to either node.
        using var http = ProgramProcess.Client(_proxy.Url, key, _proxy.Handler(cookies: false));
        var sheets = await Scans.SheetsAsync(http);
        var again = 0;
        while (!stop.IsCancellationRequested)
        {
            var body = new { id = Guid.NewGuid(), code = sheets[random.Next(sheets.Count)], equipment = "frame-1", action = random.Next(2) == 0 ? "Start" : "Finish", by = $"client {seed}", confirmed = true };
            while (!answered.ContainsKey(body.id))
            {
                try
                {
                    using var reply = await http.PostAsJsonAsync("/api/v1/scans", body, stop);
                    if (reply.StatusCode is HttpStatusCode.OK or HttpStatusCode.Conflict)
                    {
                        answered[body.id] = JsonDocument.Parse(await reply.Content.ReadAsStringAsync(stop)).RootElement.GetProperty("outcome").GetString()!;
                        continue;
                    }

                    Assert.Contains(reply.StatusCode, new[] { HttpStatusCode.BadGateway, HttpStatusCode.GatewayTimeout });
                }
                catch (HttpRequestException)
                {
                    // Broken off: not acknowledged.
                }
                catch (OperationCanceledException)
                {
                    return (again, 1);
                }

                again++;
            }
        }

        return (again, 0);
    }

    private static async Task UntilAsync(Func<bool> holds, List<Task<(int, int)>> clients)
    {
        for (var watch = Stopwatch.StartNew(); !holds(); await Task.Delay(10))
        {
            await Task.WhenAll(clients.Where(c => c.IsCompleted));
            Assert.True(watch.Elapsed < TimeSpan.FromMinutes(1), "The scans did not go on.");
        }
    }

    private async Task<Dictionary<Guid, string>> StoredAsync()
    {
        await using var connection = new NpgsqlConnection(_settings[3]);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand("SELECT \"Id\", \"Outcome\" FROM \"Scans\" WHERE \"By\" LIKE 'client %'", connection);
        await using var rows = await command.ExecuteReaderAsync();
        var stored = new Dictionary<Guid, string>();
        while (await rows.ReadAsync())
        {
            stored.Add(rows.GetGuid(0), rows.GetString(1));
        }

        return stored;
    }
}

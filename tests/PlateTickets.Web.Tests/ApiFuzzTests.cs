using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Accounts;
using Xunit.Abstractions;

namespace PlateTickets.Web.Tests;

/// <summary>
/// Ten thousand calls made from the OpenAPI document with values that no program should send: no 500, no hang, a sentence for every refusal, and
/// nothing of a ticket in the answer about another one.
/// </summary>
public sealed class ApiFuzzTests(ITestOutputHelper output) : IAsyncLifetime
{
    private const int Calls = 10_000;
    private const int AtOnce = 4;
    private const string Secret = "Marker of the other ticket 7f3e";
    private static readonly TimeSpan LongestAnswer = TimeSpan.FromSeconds(20);

    private static readonly string[] Texts =
    [
        "", " ", "null", "T00000000", "S00000000", "'; DROP TABLE Orders; --", "' OR '1'='1", "\" OR 1=1 --", "1; ATTACH DATABASE 'x' AS y",
        "<script>alert(1)</script>", "<img src=x onerror=alert(1)>", "{{7*7}}", "${jndi:ldap://x}", "%00", "%2e%2e%2f", "../../etc/passwd", "C:\\Windows\\win.ini",
        "\u0000", "\u202e reversed", "e\u0301\u0301\u0301", "\ud83d\ude00\ud83d\ude00", "\uffff", "שלום", "日本語", "=1+1", "\r\nSet-Cookie: x=1", "-1", "0", "99999999999999999999",
        "1e308", "NaN", "2026-02-30", "2026-11-27T14:00:00", "9999-12-31T23:59:59Z", "0001-01-01T00:00:00Z", "Northmere Dairy", "Aster 170", "frame-1", "Next", "true",
    ];

    private static readonly string[] Raw =
    [
        "null", "true", "[]", "{}", "-1", "0", "1.5", "1e400", "99999999999999999999999", "\"\"", "\"x\"", "[null]", "[[[[[]]]]]", "{\"a\":{\"b\":{}}}", "\"2026-11-27T14:00:00+01:00\"", "\"00000000-0000-0000-0000-000000000000\"",
    ];

    private readonly ConcurrentDictionary<string, int> _statuses = new();
    private readonly ConcurrentBag<string> _wrong = [];
    private RoomServer _room = null!;
    private string _number = "";

    public async Task InitializeAsync() => _room = await RoomServer.StartAsync();

    public async Task DisposeAsync() => await _room.DisposeAsync();

    [Fact]
    public async Task TenThousandBadCalls_AreAnsweredInTime_WithASentence_AndLeakNothing()
    {
        // Each key has its own share of calls: many keys, so that the limit does not hide what lies behind it.
        var clients = await Task.WhenAll(Enumerable.Range(0, 64).Select(_ => _room.ClientAsync(Role.Manager)));
        _number = await OrderAsync(clients[0]);
        var operations = OperationsOf(JsonNode.Parse(await clients[0].GetStringAsync("/openapi/v1.json"))!.AsObject());
        Assert.InRange(operations.Count, 15, 200);
        var slowest = TimeSpan.Zero;
        var watch = Stopwatch.StartNew();
        await Parallel.ForEachAsync(Enumerable.Range(0, Calls), new ParallelOptions { MaxDegreeOfParallelism = AtOnce }, async (i, cancel) =>
        {
            // The seed is the call's number: a call that goes wrong can be made again.
            var random = new Random(i);
            var operation = operations[i % operations.Count];
            using var request = operation.Make(random);
            var asked = $"call {i}: {request.Method} {request.RequestUri} {(request.Content is StringContent text ? Short(await text.ReadAsStringAsync(cancel)) : "")}";
            var started = Stopwatch.GetTimestamp();
            using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancel);
            stop.CancelAfter(LongestAnswer);
            try
            {
                using var reply = await clients[i % clients.Length].SendAsync(request, stop.Token);
                var body = await reply.Content.ReadAsStringAsync(stop.Token);
                _statuses.AddOrUpdate($"{(int)reply.StatusCode}", 1, (_, n) => n + 1);
                Check(asked, operation, request, reply, body);
            }
            catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
            {
                _wrong.Add($"{asked} had no answer in {LongestAnswer.TotalSeconds} s.");
            }

            var took = Stopwatch.GetElapsedTime(started);
            lock (_statuses)
            {
                slowest = took > slowest ? took : slowest;
            }
        });
        output.WriteLine($"{Calls} calls of {operations.Count} operations in {watch.Elapsed.TotalSeconds:0.0} s, slowest {slowest.TotalMilliseconds:0} ms; {string.Join(", ", _statuses.OrderBy(s => s.Key).Select(s => $"{s.Key}: {s.Value}"))}");
        Assert.True(_wrong.IsEmpty, string.Join("\n", _wrong.Take(20)));
        Assert.Equal(Calls, _statuses.Values.Sum());
        using var board = await clients[0].GetAsync("/api/v1/board");
        Assert.Equal(HttpStatusCode.OK, board.StatusCode);
    }

    private void Check(string asked, Operation operation, HttpRequestMessage request, HttpResponseMessage reply, string body)
    {
        if ((int)reply.StatusCode >= 500)
        {
            _wrong.Add($"{asked} gave {(int)reply.StatusCode}: {Short(body)}");
        }
        else if ((int)reply.StatusCode >= 400)
        {
            // An address that the server itself cannot read (a broken escape) never reaches the program.
            if (reply.Content.Headers.ContentType?.MediaType != "application/problem+json" && !(reply.StatusCode == HttpStatusCode.BadRequest && body.Length == 0))
            {
                _wrong.Add($"{asked} gave {(int)reply.StatusCode} without a problem: {Short(body)}");
            }
            else if (body.Length > 0 && JsonNode.Parse(body)?["code"] is null)
            {
                _wrong.Add($"{asked} gave a problem without a code: {Short(body)}");
            }
        }

        var ofAll = operation.Path is "/api/v1/orders" or "/api/v1/orders.csv" or "/api/v1/board" or "/api/v1/plates.csv";
        if (!ofAll && body.Contains(Secret, StringComparison.Ordinal) && !request.RequestUri!.OriginalString.Contains(_number, StringComparison.OrdinalIgnoreCase))
        {
            _wrong.Add($"{asked} told of another ticket: {Short(body)}");
        }
    }

    private static async Task<string> OrderAsync(HttpClient http)
    {
        using var reply = await http.PostAsync("/api/v1/orders", Json($$"""{"customer":"{{Secret}}","title":"{{Secret}}","press":"Press 1, wide film","cylinder":"Sleeve 400","due":"2026-11-27T14:00:00+01:00"}"""));
        Assert.Equal(HttpStatusCode.Created, reply.StatusCode);
        return JsonNode.Parse(await reply.Content.ReadAsStringAsync())!["number"]!.GetValue<string>();
    }

    private static string Short(string text) => text.Length <= 300 ? text : $"{text[..300]} … ({text.Length} characters)";

    private static StringContent Json(string text) => new(text, Encoding.UTF8, "application/json");

    private static List<Operation> OperationsOf(JsonObject document) =>
    [
        .. from path in document["paths"]!.AsObject()
           from method in path.Value!.AsObject()
           select new Operation(document, path.Key, method.Key, method.Value!.AsObject()),
    ];

    private sealed class Operation(JsonObject document, string path, string method, JsonObject says)
    {
        public string Path => path;

        public HttpRequestMessage Make(Random random)
        {
            var address = path;
            var query = new List<string>();
            var headers = new List<(string, string)>();
            foreach (var parameter in says["parameters"]?.AsArray() ?? [])
            {
                var name = parameter!["name"]!.GetValue<string>();
                var value = Text(random);
                switch (parameter["in"]!.GetValue<string>())
                {
                    case "path":
                        // A bare number or an escape of its own at times; an empty one would be another address.
                        address = address.Replace($"{{{name}}}", random.Next(4) == 0 ? $"{random.Next(1, 500)}" : Uri.EscapeDataString(value.Length == 0 ? "x" : value), StringComparison.Ordinal);
                        break;
                    case "query" when random.Next(3) != 0:
                        query.Add($"{name}={Uri.EscapeDataString(value)}");
                        break;
                    case "header" when random.Next(2) == 0:
                        headers.Add((name, new string([.. value.Where(c => c is >= ' ' and <= '~')])));
                        break;
                }
            }

            var request = new HttpRequestMessage(new HttpMethod(method.ToUpperInvariant()), address + (query.Count > 0 ? $"?{string.Join('&', query)}" : ""));
            foreach (var (name, value) in headers)
            {
                request.Headers.TryAddWithoutValidation(name, value);
            }

            if (says["requestBody"]?["content"]?.AsObject() is { } content)
            {
                request.Content = content.ContainsKey("multipart/form-data") ? Form(random) : content.ContainsKey("text/csv") ? List(random) : Body(random, content["application/json"]!["schema"]!);
            }

            return request;
        }

        private HttpContent Body(Random random, JsonNode schema)
        {
            switch (random.Next(12))
            {
                case 0:
                    return Json(Raw[random.Next(Raw.Length)]);
                case 1:
                    return Json("{\"customer\":" + new string('[', 2000));
                case 2:
                    return new StringContent("a=1&b=2", Encoding.UTF8, "application/x-www-form-urlencoded");
                case 3:
                    return new ByteArrayContent([0xFF, 0xFE, 0x00, 0x80, 0xC0]) { Headers = { ContentType = new MediaTypeHeaderValue("application/json") } };
                default:
                    return Json(Value(random, schema, 0));
            }
        }

        private static StringContent List(Random random)
        {
            var lines = Enumerable.Range(0, random.Next(6)).Select(_ => string.Join(random.Next(4) == 0 ? ';' : ',', Enumerable.Range(0, random.Next(1, 10)).Select(_ => Text(random))));
            return new StringContent(string.Join("\r\n", random.Next(4) == 0 ? lines : lines.Prepend("customer,title,press,cylinder,repeat mm,material,due,copies")), Encoding.UTF8, random.Next(10) == 0 ? "text/plain" : "text/csv");
        }

        private static MultipartFormDataContent Form(Random random)
        {
            var form = new MultipartFormDataContent();
            for (var i = random.Next(4); i > 0; i--)
            {
                var bytes = new byte[random.Next(2000)];
                random.NextBytes(bytes);
                if (bytes.Length > 8 && random.Next(2) == 0)
                {
                    "II*\0"u8.CopyTo(bytes);
                }

                var name = new string([.. Text(random).Where(c => c is >= ' ' and <= '~' and not '"')]);
                form.Add(new ByteArrayContent(bytes), "files", string.IsNullOrWhiteSpace(name) ? "x.tif" : name[..Math.Min(name.Length, 200)]);
            }

            return form;
        }

        private string Value(Random random, JsonNode schema, int depth)
        {
            if (schema["$ref"] is { } reference)
            {
                schema = document["components"]!["schemas"]![reference.GetValue<string>().Split('/')[^1]]!;
            }

            if (random.Next(5) == 0)
            {
                return Raw[random.Next(Raw.Length)];
            }

            if (schema["properties"]?.AsObject() is { } properties && depth < 5)
            {
                return "{" + string.Join(",", properties.Where(_ => random.Next(8) != 0).Select(p => $"{JsonSerializer.Serialize(p.Key)}:{Value(random, p.Value!, depth + 1)}")) + "}";
            }

            if (schema["items"] is { } items && depth < 5)
            {
                return "[" + string.Join(",", Enumerable.Range(0, random.Next(20) == 0 ? 300 : random.Next(4)).Select(_ => Value(random, items, depth + 1))) + "]";
            }

            var type = schema["type"] is JsonArray several ? string.Join(' ', several.Select(t => t!.GetValue<string>())) : schema["type"]?.ToString() ?? "";
            return random.Next(3) != 0 && (type.Contains("number", StringComparison.Ordinal) || type.Contains("integer", StringComparison.Ordinal))
                ? random.Next(-5, 3000).ToString(System.Globalization.CultureInfo.InvariantCulture)
                : JsonSerializer.Serialize(Text(random));
        }

        private static string Text(Random random) => random.Next(20) switch
        {
            0 => new string('A', random.Next(1, 4000)),
            1 => string.Concat(Enumerable.Range(0, random.Next(1, 40)).Select(_ => (char)random.Next(1, 0xD7FF))),
            _ => Texts[random.Next(Texts.Length)],
        };
    }
}

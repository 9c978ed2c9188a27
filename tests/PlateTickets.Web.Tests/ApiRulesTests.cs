using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Tests;

/// <summary>What holds for every call: keys, repeated calls, pages, states, limits.</summary>
public sealed class ApiRulesTests(HttpRoom room) : IClassFixture<HttpRoom>
{
    [Fact]
    public async Task SameKeyAgain_CreatesNothing_AndGivesTheFirstAnswer()
    {
        var key = Guid.NewGuid().ToString();
        using var first = await EnterAsync(key, "Rye bread 1 kg");
        using var again = await EnterAsync(key, "Rye bread 1 kg");
        Assert.Equal(HttpStatusCode.Created, first.StatusCode);
        Assert.Equal(HttpStatusCode.Created, again.StatusCode);
        Assert.Equal(await first.Content.ReadAsStringAsync(), await again.Content.ReadAsStringAsync());
        Assert.Equal("true", again.Headers.GetValues("Idempotency-Replayed").Single());
        Assert.False(first.Headers.Contains("Idempotency-Replayed"));
        Assert.Equal(1, await CountAsync("Rye bread 1 kg"));

        using var other = await EnterAsync(key, "Rye bread 2 kg");
        Assert.Equal("key-reused", await CodeAsync(other, HttpStatusCode.UnprocessableEntity));
        Assert.Equal(0, await CountAsync("Rye bread 2 kg"));
    }

    [Fact]
    public async Task SameKeyTwentyTimesAtOnce_CreatesOneOrder()
    {
        var key = Guid.NewGuid().ToString();
        var answers = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => EnterAsync(key, "Oat biscuits asked for at once")));
        Assert.All(answers, a => Assert.Equal(HttpStatusCode.Created, a.StatusCode));
        Assert.Single(answers.Select(a => a.Headers.Location).Distinct());
        Assert.Equal(1, await CountAsync("Oat biscuits asked for at once"));
    }

    [Fact]
    public async Task SameKeyOfAnotherCaller_IsAnotherCall()
    {
        var key = Guid.NewGuid().ToString();
        using var mine = await EnterAsync(key, "Plum jam of two callers");
        using var client = await room.Server.ClientAsync(Role.Csr);
        using var theirs = await EnterAsync(key, "Plum jam of two callers", client);
        Assert.Equal(2, await CountAsync("Plum jam of two callers"));
    }

    [Theory]
    [InlineData("")]
    [InlineData("two words")]
    [InlineData("AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")]
    public async Task KeyThatIsNoKey_IsRefused(string key)
    {
        using var reply = await EnterAsync(key, "Nothing");
        Assert.Equal("bad-request", await CodeAsync(reply, HttpStatusCode.BadRequest));
    }

    [Fact]
    public async Task Orders_ComeInPages_ThatFollowEachOther()
    {
        var seen = new List<string>();
        var next = "/api/v1/orders?limit=7";
        var total = 0;
        while (next is not null)
        {
            using var reply = await room.Http.GetAsync(next);
            var page = await JsonAsync(reply);
            total = page.GetProperty("total").GetInt32();
            var orders = page.GetProperty("orders").EnumerateArray().Select(o => o.GetProperty("number").GetString()!).ToList();
            Assert.InRange(orders.Count, 1, 7);
            seen.AddRange(orders);
            next = reply.Headers.TryGetValues("Link", out var link) ? link.Single().Split('>')[0][1..] : null;
        }

        Assert.InRange(total, 8, 1000);
        Assert.Equal(total, seen.Count);
        Assert.Equal(seen.Count, seen.Distinct().Count());
        using var tooMany = await room.Http.GetAsync("/api/v1/orders?limit=201");
        Assert.Equal("bad-request", await CodeAsync(tooMany, HttpStatusCode.BadRequest));
    }

    [Fact]
    public async Task Change_NeedsTheStateThatWasSeen()
    {
        using var entered = await EnterAsync(Guid.NewGuid().ToString(), "Pear cider");
        var ticket = (await JsonAsync(entered)).GetProperty("ticket").GetString()!;
        using var look = await room.Http.GetAsync(ticket);
        var tag = look.Headers.ETag!;
        using var blind = await PatchAsync(ticket, new { rush = true }, null);
        Assert.Equal("if-match-missing", await CodeAsync(blind, HttpStatusCode.PreconditionRequired));
        using var rushed = await PatchAsync(ticket, new { rush = true }, tag.Tag);
        Assert.Equal(HttpStatusCode.OK, rushed.StatusCode);
        Assert.NotEqual(tag, rushed.Headers.ETag);
        using var late = await PatchAsync(ticket, new { rush = false }, tag.Tag);
        Assert.Equal("changed-meanwhile", await CodeAsync(late, HttpStatusCode.PreconditionFailed));
        using var now = await PatchAsync(ticket, new { rush = false }, rushed.Headers.ETag!.Tag);
        Assert.Equal(HttpStatusCode.OK, now.StatusCode);
        using var both = await PatchAsync(ticket, new { rush = false, onHold = true }, "*");
        Assert.Equal("bad-request", await CodeAsync(both, HttpStatusCode.BadRequest));
        using var noSheet = await PatchAsync(ticket, new { onHold = true, reason = "waits" }, "*");
        Assert.Equal("refused", await CodeAsync(noSheet, HttpStatusCode.Conflict));
    }

    [Fact]
    public async Task OfTenWhoSawTheSameState_OneChangesIt()
    {
        using var entered = await EnterAsync(Guid.NewGuid().ToString(), "Quince paste");
        var ticket = (await JsonAsync(entered)).GetProperty("ticket").GetString()!;
        using var look = await room.Http.GetAsync(ticket);
        var answers = await Task.WhenAll(Enumerable.Range(0, 10).Select(_ => PatchAsync(ticket, new { rush = true }, look.Headers.ETag!.Tag)));
        Assert.Single(answers, a => a.StatusCode == HttpStatusCode.OK);
        Assert.Equal(9, answers.Count(a => a.StatusCode is HttpStatusCode.PreconditionFailed or HttpStatusCode.Conflict));
    }

    [Fact]
    public async Task Key_IsKeptAsAHash_EndsAndIsRevoked_AndSaysWhenItWasUsed()
    {
        var keys = room.Server.Services.GetRequiredService<ApiKeys>();
        var key = await keys.CreateAsync("Weighing scale", Role.Operator, TimeSpan.FromDays(2), "Test");
        await using (var db = await room.Server.Services.GetRequiredService<IDbContextFactory<PlateRoomDb>>().CreateDbContextAsync())
        {
            var kept = await db.ApiKeys.SingleAsync(k => k.Name == "Weighing scale");
            Assert.Equal(64, kept.Hash.Length);
            Assert.DoesNotContain(key[kept.Start.Length..], JsonSerializer.Serialize(kept), StringComparison.Ordinal);
            Assert.Equal(10, kept.Start.Length);
            Assert.Null(kept.LastUsedUtc);
            Assert.DoesNotContain(await db.AuditEntries.Where(a => a.Key == "Weighing scale").ToListAsync(), a => $"{a.From}{a.To}".Contains(kept.Hash, StringComparison.Ordinal));
        }

        Assert.Equal(HttpStatusCode.OK, await BoardAsync(key));
        Assert.NotNull((await keys.ListAsync()).Single(k => k.Name == "Weighing scale").LastUsedUtc);
        Assert.Equal(HttpStatusCode.Unauthorized, await BoardAsync(key[..^1] + (key[^1] == 'A' ? 'B' : 'A')));
        await Assert.ThrowsAsync<Process.PlateRoomException>(() => keys.CreateAsync("Weighing scale", Role.Operator, TimeSpan.FromDays(2), "Test"));
        await keys.RevokeAsync((await keys.ListAsync()).Single(k => k.Name == "Weighing scale").Id, "Test");
        Assert.Equal(HttpStatusCode.Unauthorized, await BoardAsync(key));

        var brief = await keys.CreateAsync("Visitor", Role.Operator, TimeSpan.FromMinutes(1), "Test");
        Assert.Equal(HttpStatusCode.OK, await BoardAsync(brief));
        room.Server.Clock.Advance(TimeSpan.FromMinutes(2));
        Assert.Equal(HttpStatusCode.Unauthorized, await BoardAsync(brief));
    }

    [Fact]
    public async Task BodyThatIsTooLarge_IsRefused()
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/orders")
        {
            Content = new StringContent($"{{\"title\":\"{new string('x', 300_000)}\"}}", System.Text.Encoding.UTF8, "application/json"),
            // Sent only when asked for: else the answer can come in the middle of sending, and the connection ends.
            Headers = { ExpectContinue = true },
        };
        using var reply = await room.Http.SendAsync(request);
        Assert.Equal("too-large", await CodeAsync(reply, HttpStatusCode.RequestEntityTooLarge));
    }

    [Fact]
    public async Task ProgramThatRunsWild_IsSlowedDown_AndNobodyElse()
    {
        using var wild = await room.Server.ClientAsync(Role.Operator);
        var answers = await Task.WhenAll(Enumerable.Range(0, 600).Select(_ => wild.GetAsync("/api/v1/nothing-here")));
        // An address that does not exist costs nothing and is not counted.
        Assert.All(answers, a => Assert.Equal(HttpStatusCode.NotFound, a.StatusCode));
        answers = await Task.WhenAll(Enumerable.Range(0, 900).Select(_ => wild.GetAsync("/api/v1/tickets/T00000000")));
        var slowed = answers.Where(a => a.StatusCode == HttpStatusCode.TooManyRequests).ToList();
        Assert.InRange(slowed.Count, 1, 500);
        Assert.All(slowed, a => Assert.NotNull(a.Headers.RetryAfter));
        Assert.Equal("too-many", await CodeAsync(slowed[0], HttpStatusCode.TooManyRequests));
        using var calm = await room.Http.GetAsync("/api/v1/board");
        Assert.Equal(HttpStatusCode.OK, calm.StatusCode);
    }

    [Fact]
    public async Task OpenApi_SaysHowToSignIn_ShowsEveryBody_AndNamesTheRefusals()
    {
        var document = JsonDocument.Parse(await room.Http.GetStringAsync("/openapi/v1.json")).RootElement;
        Assert.Equal("bearer", document.GetProperty("components").GetProperty("securitySchemes").GetProperty("ApiKey").GetProperty("scheme").GetString());
        foreach (var path in document.GetProperty("paths").EnumerateObject())
        {
            foreach (var operation in path.Value.EnumerateObject())
            {
                var name = $"{operation.Name} {path.Name}";
                Assert.True(operation.Value.TryGetProperty("summary", out var summary) && summary.GetString()!.Length > 10, name);
                Assert.Contains("Needs the right to", operation.Value.GetProperty("description").GetString()!, StringComparison.Ordinal);
                var codes = operation.Value.GetProperty("responses").EnumerateObject().Select(r => r.Name).ToList();
                Assert.Contains("401", codes);
                Assert.Contains("403", codes);
                Assert.Contains("429", codes);
                Assert.Contains(codes, c => c.StartsWith('2'));
                if (operation.Value.TryGetProperty("requestBody", out var body) && body.GetProperty("content").TryGetProperty("application/json", out var json))
                {
                    var schema = document.GetProperty("components").GetProperty("schemas").GetProperty(json.GetProperty("schema").GetProperty("$ref").GetString()!.Split('/')[^1]);
                    Assert.True(schema.TryGetProperty("examples", out _) || schema.TryGetProperty("example", out _), name);
                }
            }
        }
    }

    [Fact]
    public async Task ExamplesOfTheDocument_Work()
    {
        var schemas = JsonDocument.Parse(await room.Http.GetStringAsync("/openapi/v1.json")).RootElement.GetProperty("components").GetProperty("schemas");
        foreach (var (schema, address, expected) in new[]
        {
            ("OrderRequest", "/api/v1/orders", HttpStatusCode.Created), ("PromiseRequest", "/api/v1/promises", HttpStatusCode.OK), ("ScanBody", "/api/v1/scans", HttpStatusCode.Conflict),
        })
        {
            var example = schemas.GetProperty(schema).TryGetProperty("examples", out var several) ? several[0] : schemas.GetProperty(schema).GetProperty("example");
            using var reply = await room.Http.PostAsync(address, new StringContent(example.GetRawText(), System.Text.Encoding.UTF8, "application/json"));
            Assert.Equal(expected, reply.StatusCode);
        }
    }

    private async Task<HttpStatusCode> BoardAsync(string key)
    {
        using var http = new HttpClient { BaseAddress = room.Http.BaseAddress, DefaultRequestHeaders = { Authorization = new AuthenticationHeaderValue("Bearer", key) } };
        using var reply = await http.GetAsync("/api/v1/board");
        return reply.StatusCode;
    }

    private async Task<int> CountAsync(string title) =>
        JsonDocument.Parse(await room.Http.GetStringAsync($"/api/v1/orders?search={Uri.EscapeDataString(title)}")).RootElement.GetProperty("orders").GetArrayLength();

    private Task<HttpResponseMessage> EnterAsync(string key, string title, HttpClient? http = null)
    {
        var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/orders")
        {
            Content = JsonContent.Create(new { customer = "Northmere Dairy", title, press = "Press 1, wide film", cylinder = "Sleeve 400", due = "2026-11-27T14:00:00+01:00", copies = 1 }),
        };
        request.Headers.TryAddWithoutValidation("Idempotency-Key", key);
        return (http ?? room.Http).SendAsync(request);
    }

    private Task<HttpResponseMessage> PatchAsync(string ticket, object change, string? tag)
    {
        var request = new HttpRequestMessage(HttpMethod.Patch, ticket) { Content = JsonContent.Create(change) };
        if (tag is not null)
        {
            request.Headers.TryAddWithoutValidation("If-Match", tag);
        }

        return room.Http.SendAsync(request);
    }

    private static async Task<JsonElement> JsonAsync(HttpResponseMessage reply)
    {
        Assert.True(reply.IsSuccessStatusCode, await reply.Content.ReadAsStringAsync());
        return JsonDocument.Parse(await reply.Content.ReadAsStringAsync()).RootElement;
    }

    private static async Task<string?> CodeAsync(HttpResponseMessage reply, HttpStatusCode status)
    {
        Assert.Equal(status, reply.StatusCode);
        Assert.Equal("application/problem+json", reply.Content.Headers.ContentType!.MediaType);
        return JsonDocument.Parse(await reply.Content.ReadAsStringAsync()).RootElement.GetProperty("code").GetString();
    }
}

using System.Diagnostics;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Planning.Scheduling.Checking;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Accounts.Audit;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Web.Tests.Accounts;

namespace PlateTickets.Web.Tests;

/// <summary>The server's clock is put back by two hours in the middle of a shift, and put right later.</summary>
public sealed class ClockTests : IAsyncLifetime
{
    private static readonly TimeSpan Step = TimeSpan.FromHours(2);

    private RoomServer _room = null!;
    private HttpClient _http = null!;

    public async Task InitializeAsync()
    {
        _room = await RoomServer.StartAsync();
        _http = await _room.ClientAsync(Role.Manager);
    }

    public async Task DisposeAsync()
    {
        _http.Dispose();
        await _room.DisposeAsync();
    }

    [Fact]
    public async Task SteppedBack_WorkGoesOn_NothingEndsBeforeItBegan_AndThePlanIsMadeAnew()
    {
        using var person = await Visitor.AsDemoAsync(_room, Role.Operator);
        var ordered = await OrderAsync("one");
        _room.Clock.Advance(TimeSpan.FromMinutes(10));
        var before = await RunningAsync();
        Assert.NotEmpty(before);
        var first = (Id: Guid.NewGuid(), Outcome: await ScanAsync(before[0], "Finish"));
        Assert.Equal("Finished", first.Outcome);

        _room.Clock.AdjustTime(_room.Clock.GetUtcNow() - Step);
        var now = _room.Clock.GetUtcNow().UtcDateTime;
        // What runs was started in what is now the future. It can come out, and the next stage can begin.
        var running = await RunningAsync();
        Assert.Contains(running, s => s.StartedUtc > now);
        var finished = 0;
        foreach (var stage in running)
        {
            Assert.Equal("Finished", await ScanAsync(stage, "Finish"));
            finished++;
        }

        Assert.True(finished > 0);
        var started = 0;
        foreach (var (number, machine) in await NextAsync())
        {
            started += await ScanAsync(number, machine, "Start") == "Started" ? 1 : 0;
        }

        Assert.True(started > 0);
        await InOrderAsync();

        // The plan begins at the new time and keeps all rules.
        var book = _room.Services.GetRequiredService<PlanBook>();
        for (var waited = Stopwatch.StartNew(); book.Now is not { } plan || plan.Live.Request.NowUtc > now.AddMinutes(1) || plan.Live.Request.Sheets.SelectMany(s => s.Stages).Count(s => s.Running is not null) < started; await Task.Delay(20))
        {
            Assert.True(waited.Elapsed < TimeSpan.FromSeconds(30), "No plan was made after the clock was put back.");
        }

        Assert.Empty(PlanChecker.Violations(book.Now!.Live.Request, book.Now.Live.Plan));
        Assert.All(book.Now.Live.Plan.Stages, s => Assert.True(s.StartUtc < s.FinishUtc && s.DueByUtc > now.AddDays(-30) && s.DueByUtc < now.AddDays(90)));

        // Numbers go on, and what was asked before is known.
        var next = await OrderAsync("two");
        Assert.NotEqual(ordered, next);
        Assert.Equal(ordered, await OrderAsync("one"));
        Assert.Equal(next, await OrderAsync("two"));

        // The session holds; put right, all goes on.
        Assert.Equal("Demo operator", await person.NameAsync());
        _room.Clock.AdjustTime(_room.Clock.GetUtcNow() + Step);
        Assert.Equal("Demo operator", await person.NameAsync());
        foreach (var stage in await RunningAsync())
        {
            Assert.Equal("Finished", await ScanAsync(stage, "Finish"));
        }

        await InOrderAsync();
        await using var db = await OpenAsync();
        await db.Database.OpenConnectionAsync();
        Assert.Null((await new AuditCheck(db.Database.GetDbConnection()).WalkAsync()).Wrong);
    }

    /// <summary>A session is looked at again every half minute. It must not be left alone until the clock has caught up.</summary>
    [Fact]
    public async Task SteppedBack_AnAccountThatIsSwitchedOffIsOut()
    {
        using var keeper = await Visitor.AsDemoAsync(_room, Role.Administrator);
        using var person = await Visitor.AsDemoAsync(_room, Role.Operator);
        _room.Clock.AdjustTime(_room.Clock.GetUtcNow() - Step);
        Assert.Equal("Demo operator", await person.NameAsync());
        var desk = _room.Services.GetRequiredService<AccountDesk>();
        var account = (await desk.ListAsync()).Single(l => l.Account.UserName == "Demo operator").Account;
        await desk.SetActiveAsync(account.Id, false, "Test");
        _room.Clock.Advance(TimeSpan.FromSeconds(31));
        Assert.Null(await person.NameAsync());
    }

    private async Task InOrderAsync()
    {
        await using var db = await OpenAsync();
        var sheets = await db.Sheets.AsNoTracking().Include(s => s.Stages).ToListAsync();
        foreach (var stages in sheets.Select(s => s.Stages.OrderBy(t => t.Station).ToList()))
        {
            Assert.All(stages.Where(s => s.FinishedUtc is not null && s.StartedUtc is not null), s => Assert.True(s.FinishedUtc >= s.StartedUtc, $"{s.Station} of sheet {s.SheetId}: {s.StartedUtc:u} to {s.FinishedUtc:u}"));
            foreach (var (earlier, later) in stages.Zip(stages.Skip(1)).Where(p => p.First.FinishedUtc is not null && p.Second.StartedUtc is not null))
            {
                Assert.True(later.StartedUtc >= earlier.FinishedUtc, $"{later.Station} of sheet {later.SheetId} began before {earlier.Station} was over.");
            }
        }
    }

    private async Task<List<RunningSheet>> RunningAsync()
    {
        await using var db = await OpenAsync();
        return await db.Stages.AsNoTracking().Where(s => s.State == StageState.Running).OrderBy(s => s.Id)
            .Select(s => new RunningSheet(s.Sheet!.Number, s.Equipment!.Slug, s.StartedUtc!.Value)).ToListAsync();
    }

    private async Task<List<(string Number, string Machine)>> NextAsync()
    {
        await using var db = await OpenAsync();
        var waiting = await db.Sheets.AsNoTracking().Where(s => s.State == SheetState.Waiting).OrderBy(s => s.Id)
            .Select(s => new { s.Number, Machine = s.Stages.Where(t => t.State != StageState.Done).OrderBy(t => t.Station).First().Equipment!.Slug }).ToListAsync();
        return [.. waiting.Where(w => w.Machine is not null).Select(w => (w.Number, w.Machine))];
    }

    private Task<string> ScanAsync(RunningSheet sheet, string action) => ScanAsync(sheet.Number, sheet.Machine, action);

    /// <summary>The outcome; sent a second time it must be the same scan.</summary>
    private async Task<string> ScanAsync(string number, string machine, string action)
    {
        var body = new { id = Guid.NewGuid(), code = number, equipment = machine, action, by = "Test", confirmed = true, ticked = new[] { "CoverFilmOff", "ClampsClosed", "PlainPunch", "PinBarLocked" } };
        using var reply = await _http.PostAsJsonAsync("/api/v1/scans", body);
        using var again = await _http.PostAsJsonAsync("/api/v1/scans", body);
        var (told, second) = (await reply.Content.ReadFromJsonAsync<JsonElement>(), await again.Content.ReadFromJsonAsync<JsonElement>());
        Assert.True(second.GetProperty("repeated").GetBoolean());
        Assert.Equal(told.GetProperty("outcome").GetString(), second.GetProperty("outcome").GetString());
        return told.GetProperty("outcome").GetString()!;
    }

    private async Task<string> OrderAsync(string key)
    {
        using var call = new HttpRequestMessage(HttpMethod.Post, "/api/v1/orders")
        {
            Headers = { { "Idempotency-Key", key } },
            Content = JsonContent.Create(new { customer = "Northmere Dairy", title = $"Butter foil {key}", press = "Press 1, wide film", cylinder = "Sleeve 400", due = "2026-11-27T14:00:00+01:00", copies = 1 }),
        };
        using var reply = await _http.SendAsync(call);
        Assert.Equal(HttpStatusCode.Created, reply.StatusCode);
        return (await reply.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("number").GetString()!;
    }

    private Task<PlateRoomDb> OpenAsync() => _room.Services.GetRequiredService<IDbContextFactory<PlateRoomDb>>().CreateDbContextAsync();

    private sealed record RunningSheet(string Number, string Machine, DateTime StartedUtc);
}

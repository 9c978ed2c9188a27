using System.Globalization;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Accounts.Audit;
using PlateTickets.Tickets.Demo;

namespace PlateTickets.Tickets.Tests.Accounts;

public sealed class AuditQueriesTests : IAsyncLifetime
{
    private RoomFixture _room = null!;
    private AuditQueries _queries = null!;
    private DateTime _start;

    public async Task InitializeAsync()
    {
        _room = await RoomFixture.CreateAsync(RoomStartKind.Empty);
        _queries = new AuditQueries(_room);
        _room.Clock.Advance(TimeSpan.FromHours(1));
        _start = _room.Now;
        var log = new AuditLog(_room, _room.Clock);
        for (var i = 0; i < 30; i++)
        {
            await log.WriteAsync(i % 3 == 0 ? "Ada" : "Bob", i % 2 == 0 ? "Account" : "ApiKey", $"thing {i % 5}", i == 7 ? "failed to sign in" : "signed in", i == 11 ? "50 %_off \\ Sale" : null);
            _room.Clock.Advance(TimeSpan.FromMinutes(1));
        }
    }

    public async Task DisposeAsync() => await _room.DisposeAsync();

    [Fact]
    public async Task Pages_GoFromTheNewestToTheOldest_WithoutGapOrRepetition()
    {
        var all = new List<long>();
        long? before = null;
        do
        {
            var page = await _queries.PageAsync(new AuditFilter(), before, 7);
            Assert.InRange(page.Entries.Count, 0, 7);
            all.AddRange(page.Entries.Select(e => e.Id));
            before = page.OlderThan;
        }
        while (before is not null);
        Assert.Equal(all.OrderDescending(), all);
        Assert.Equal((await _queries.HeadAsync()).Count, all.Distinct().Count());
    }

    [Fact]
    public async Task Filters_FindWhatTheyAskFor()
    {
        Assert.Equal(10, await CountAsync(new AuditFilter(By: "Ada")));
        Assert.Equal(15, await CountAsync(new AuditFilter(Record: "ApiKey")));
        Assert.Equal(12, await CountAsync(new AuditFilter(Keys: ["thing 1", "thing 2"])));
        Assert.Equal(1, await CountAsync(new AuditFilter(Fields: ["(failed to sign in)"])));
        Assert.Equal(1, await CountAsync(new AuditFilter(Text: "sale")));
    }

    [Theory]
    [InlineData("50 %_off", 1)]
    [InlineData("50 _%off", 0)]
    [InlineData("\\ SALE", 1)]
    [InlineData("%", 1)]
    public async Task Text_IsTakenAsItIs(string text, int found) => Assert.Equal(found, await CountAsync(new AuditFilter(Text: text)));

    [Fact]
    public async Task Time_IncludesItsBeginningAndNotItsEnd() =>
        Assert.Equal(5, await CountAsync(new AuditFilter(FromUtc: _start.AddMinutes(10), ToUtc: _start.AddMinutes(15))));

    [Fact]
    public async Task TimeBeforeOrAfterAll_FindsNothing()
    {
        Assert.Equal(0, await CountAsync(new AuditFilter(ToUtc: _start.AddDays(-9))));
        Assert.Equal(0, await CountAsync(new AuditFilter(FromUtc: _start.AddDays(9))));
    }

    [Fact]
    public async Task Csv_HasARowForEachEntryWithItsHash()
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        await AuditCsv.WriteAsync(text, _queries.AllAsync(new AuditFilter(Keys: ["thing 1"])));
        var lines = text.ToString().Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal("number,time (UTC),who,record,key,field,from,to,sha256", lines[0]);
        Assert.Equal(7, lines.Length);
        Assert.Contains(lines, l => l.Contains("50 %_off \\ Sale", StringComparison.Ordinal));
        Assert.All(lines[1..], l => Assert.Matches(",[0-9a-f]{64}$", l));
    }

    private async Task<int> CountAsync(AuditFilter filter)
    {
        var count = 0;
        await foreach (var _ in _queries.AllAsync(filter))
        {
            count++;
        }

        return count;
    }
}

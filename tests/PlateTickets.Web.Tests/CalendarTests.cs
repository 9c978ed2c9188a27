using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.RegularExpressions;
using Ical.Net;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web.Tests.Accounts;

namespace PlateTickets.Web.Tests;

/// <summary>The calendar as a calendar program meets it: an address made on the account's page, read without signing in.</summary>
public sealed partial class CalendarTests : IAsyncLifetime
{
    private readonly HttpClient _program = new();
    private RoomServer _room = null!;

    public async Task InitializeAsync() => _room = await RoomServer.StartAsync();

    [Fact]
    public async Task DueTimesAndChecks_FollowTheRulesOfRfc5545()
    {
        using var csr = await Visitor.AsDemoAsync(_room, Role.Csr);
        var address = await MakeAsync(csr, new() { ["DueTimes"] = "true", ["Checks"] = "true" });
        using var answer = await _program.GetAsync(address);
        Assert.Equal("text/calendar", answer.Content.Headers.ContentType!.MediaType);
        var text = await answer.Content.ReadAsStringAsync();

        // RFC 5545, 3.1: lines end with CRLF and have at most 75 octets.
        Assert.DoesNotContain(text.Replace("\r\n", "", StringComparison.Ordinal), c => c is '\r' or '\n');
        Assert.All(text.Split("\r\n"), l => Assert.True(Encoding.UTF8.GetByteCount(l) <= 75, l));
        var lines = text.Replace("\r\n ", "", StringComparison.Ordinal).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(["BEGIN:VCALENDAR", "END:VCALENDAR"], [lines[0], lines[^1]]);
        // 3.6: PRODID and VERSION once; 3.6.1: every event has UID and DTSTAMP, and no UID comes twice.
        Assert.Equal("VERSION:2.0", Assert.Single(lines, l => l.StartsWith("VERSION:", StringComparison.Ordinal)));
        Assert.Single(lines, l => l.StartsWith("PRODID:", StringComparison.Ordinal));
        // RFC 7986, 5.1 and 5.7.
        Assert.Contains(lines, l => l.StartsWith("NAME:", StringComparison.Ordinal));
        Assert.Contains("REFRESH-INTERVAL;VALUE=DURATION:PT15M", lines);
        var events = Events(lines);
        Assert.True(events.Count > 20, $"{events.Count} events");
        Assert.All(events, e => Assert.Equal((1, 1, 1, 1), (Count(e, "UID"), Count(e, "DTSTAMP"), Count(e, "DTSTART"), Count(e, "SUMMARY"))));
        Assert.Equal(events.Count, events.Select(e => Value(e, "UID")).Distinct().Count());
        Assert.All(events, e => Assert.Matches(Start(), e.Single(l => l.StartsWith("DTSTART", StringComparison.Ordinal))));
        Assert.Contains(events, e => Value(e, "SUMMARY").Contains("lamps", StringComparison.Ordinal));
        Assert.Contains(events, e => Value(e, "DESCRIPTION").Contains("with 95 % confidence", StringComparison.Ordinal) || Value(e, "DESCRIPTION").Contains("waits for its separations", StringComparison.Ordinal));

        // What a library reads out of it is what was put in.
        var read = Calendar.Load(text)!;
        Assert.Equal(events.Count, read.Events.Count);
        Assert.All(read.Events.Where(e => e.Summary!.StartsWith("Due:", StringComparison.Ordinal)), e => Assert.True(e.Start!.IsUtc));
    }

    [Fact]
    public async Task ChangedDueTime_KeepsItsUid_AndRaisesTheSequence_CancelledSaysSo()
    {
        using var csr = await Visitor.AsDemoAsync(_room, Role.Csr);
        var address = await MakeAsync(csr, new() { ["DueTimes"] = "true" });
        var before = Events(await LinesAsync(address)).First(e => Value(e, "SUMMARY").StartsWith("Due:", StringComparison.Ordinal));
        var number = Value(before, "UID").Split('@')[0];
        var changes = (PlateTickets.Tickets.Orders.OrderChanges)_room.Services.GetService(typeof(PlateTickets.Tickets.Orders.OrderChanges))!;
        var orders = (PlateTickets.Tickets.Orders.OrderQueries)_room.Services.GetService(typeof(PlateTickets.Tickets.Orders.OrderQueries))!;
        await changes.SetDueAsync(number, new DateTime(2026, 12, 3, 10, 0, 0, DateTimeKind.Utc), (await orders.FindAsync(number))!.Order.Version, "Ada");
        var after = Assert.Single(Events(await LinesAsync(address)), e => Value(e, "UID") == Value(before, "UID"));
        Assert.Contains("DTSTART:20261203T100000Z", after);
        Assert.True(int.Parse(Value(after, "SEQUENCE"), null) > int.Parse(Value(before, "SEQUENCE"), null));
        await changes.CancelAsync(number, "a test", "Ada");
        var cancelled = Assert.Single(Events(await LinesAsync(address)), e => Value(e, "UID") == Value(before, "UID"));
        Assert.Contains("STATUS:CANCELLED", cancelled);
        Assert.True(int.Parse(Value(cancelled, "SEQUENCE"), null) > int.Parse(Value(after, "SEQUENCE"), null));
    }

    [Fact]
    public async Task WhatDidNotChange_IsNotSentAgain()
    {
        using var csr = await Visitor.AsDemoAsync(_room, Role.Csr);
        var address = await MakeAsync(csr, new() { ["Checks"] = "true" });
        using var first = await _program.GetAsync(address);
        _room.Clock.Advance(TimeSpan.FromSeconds(90));
        using var again = new HttpRequestMessage(HttpMethod.Get, address);
        again.Headers.IfNoneMatch.Add(new EntityTagHeaderValue(first.Headers.ETag!.Tag));
        using var unchanged = await _program.SendAsync(again);
        Assert.Equal(HttpStatusCode.NotModified, unchanged.StatusCode);
    }

    [Fact]
    public async Task EndedAddress_WrongSecret_OrBlockedOwner_ReadsNothing()
    {
        using var csr = await Visitor.AsDemoAsync(_room, Role.Csr);
        var ended = await MakeAsync(csr, new() { ["DueTimes"] = "true" });
        Assert.Equal(HttpStatusCode.OK, await StatusAsync(ended));
        using var end = await csr.SubmitAsync("/account", ".feeds button", []);
        Assert.Equal(HttpStatusCode.OK, end.StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(ended));
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync($"{_room.Url}/calendar/nonsense.ics"));

        using var nothing = await csr.SubmitAsync("/account", "input[name=DueTimes]", []);
        Assert.Contains("Choose what the calendar shows", await Visitor.RefusalAsync(nothing), StringComparison.Ordinal);

        using var another = await Visitor.AsDemoAsync(_room, Role.Administrator);
        var blocked = await MakeAsync(csr, new() { ["DueTimes"] = "true" });
        var accounts = (AccountDesk)_room.Services.GetService(typeof(AccountDesk))!;
        var owner = (await accounts.ListAsync()).Select(l => l.Account).Single(a => a.UserName == "CSR" || a.Roles == Role.Csr);
        await accounts.SetActiveAsync(owner.Id, false, "Ada");
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(blocked));
    }

    public async Task DisposeAsync()
    {
        _program.Dispose();
        await _room.DisposeAsync();
    }

    private static async Task<string> MakeAsync(Visitor person, Dictionary<string, string> shows)
    {
        using var answer = await person.SubmitAsync("/account", "input[name=DueTimes]", shows);
        return Visitor.Parse(await answer.Content.ReadAsStringAsync()).QuerySelector("section[aria-label=Calendar] code.key")!.TextContent;
    }

    private async Task<HttpStatusCode> StatusAsync(string address)
    {
        using var answer = await _program.GetAsync(address);
        return answer.StatusCode;
    }

    private async Task<string[]> LinesAsync(string address) =>
        (await _program.GetStringAsync(address)).Replace("\r\n ", "", StringComparison.Ordinal).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);

    private static List<List<string>> Events(string[] lines)
    {
        var events = new List<List<string>>();
        foreach (var line in lines)
        {
            if (line == "BEGIN:VEVENT")
            {
                events.Add([]);
            }
            else if (events.Count > 0)
            {
                events[^1].Add(line);
            }
        }

        return events;
    }

    private static int Count(List<string> one, string name) => one.Count(l => l.StartsWith(name + ":", StringComparison.Ordinal) || l.StartsWith(name + ";", StringComparison.Ordinal));

    private static string Value(List<string> one, string name) => one.Find(l => l.StartsWith(name + ":", StringComparison.Ordinal))?[(name.Length + 1)..] ?? "";

    [GeneratedRegex(@"^DTSTART(:\d{8}T\d{6}Z|;VALUE=DATE:\d{8})$")]
    private static partial Regex Start();
}

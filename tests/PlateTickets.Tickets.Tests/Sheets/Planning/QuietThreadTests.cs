using System.Globalization;
using PlateTickets.Tickets.Sheets.Planning;

namespace PlateTickets.Tickets.Tests.Sheets.Planning;

public sealed class QuietThreadTests
{
    [Fact]
    public void TheWork_GivesWay_AndWhoWaitsForItDoesNot()
    {
        var before = Niceness();
        var (own, started) = QuietThread.Run(() =>
        {
            var other = 0;
            var thread = new Thread(() => other = Niceness());
            thread.Start();
            thread.Join();
            return (Niceness(), other);
        });
        Assert.Equal((before + 10, before + 10), (own, started));
        Assert.Equal(before, Niceness());
    }

    [Fact]
    public void WhatTheWorkThrows_ComesOut() =>
        Assert.Equal("of the work", Assert.Throws<FormatException>(() => QuietThread.Run<int>(() => throw new FormatException("of the work"))).Message);

    // Field 19 of proc(5)'s stat; the second field may hold spaces, and ends with the last parenthesis.
    private static int Niceness()
    {
        var stat = File.ReadAllText("/proc/thread-self/stat");
        return int.Parse(stat[(stat.LastIndexOf(')') + 2)..].Split(' ')[16], CultureInfo.InvariantCulture);
    }
}

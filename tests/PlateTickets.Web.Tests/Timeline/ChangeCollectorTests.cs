using Microsoft.Extensions.Time.Testing;
using PlateTickets.Web.Timeline;

namespace PlateTickets.Web.Tests.Timeline;

public class ChangeCollectorTests
{
    private readonly FakeTimeProvider _clock = new();
    private readonly List<int[]> _handedOn = [];

    [Fact]
    public void ChangesOfASecond_AreHandedOnTogether()
    {
        using var collector = New(_ => Task.CompletedTask);
        collector.Add([1]);
        _clock.Advance(TimeSpan.Zero);
        Assert.Equal([[1]], _handedOn);
        collector.Add([2]);
        collector.Add([3, 2]);
        _clock.Advance(TimeSpan.FromMilliseconds(900));
        Assert.Single(_handedOn);
        _clock.Advance(TimeSpan.FromMilliseconds(100));
        Assert.Equal([[1], [2, 3]], _handedOn);
    }

    [Fact]
    public void WhatComesWhileTheLastIsTaken_WaitsForItsEnd()
    {
        var taking = new TaskCompletionSource();
        using var collector = New(_ => taking.Task);
        collector.Add([1]);
        _clock.Advance(TimeSpan.Zero);
        collector.Add([2]);
        _clock.Advance(TimeSpan.FromSeconds(5));
        Assert.Equal([[1]], _handedOn);
        taking.SetResult();
        _clock.Advance(TimeSpan.FromSeconds(1));
        Assert.Equal([[1], [2]], _handedOn);
    }

    [Fact]
    public void AfterTheEnd_NothingIsHandedOn()
    {
        var collector = New(_ => Task.CompletedTask);
        collector.Dispose();
        collector.Add([1]);
        _clock.Advance(TimeSpan.FromSeconds(5));
        Assert.Empty(_handedOn);
    }

    private ChangeCollector New(Func<IReadOnlyCollection<int>, Task> take) => new(_clock, TimeSpan.FromSeconds(1), ids =>
    {
        _handedOn.Add([.. ids.Order()]);
        return take(ids);
    });
}

using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Lateness;
using PlateTickets.Planning.Scheduling.Replanning;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

public sealed class LatenessSimulationTests
{
    private const int Runs = 4000;
    private static readonly TimeSpread Spread = new(0.05, 0.2);

    // Upper tails of the standard normal distribution at the quantile z: M. Abramowitz, I. A. Stegun (ed.), Handbook of
    // Mathematical Functions, 1964, table 26.1 (cited from memory; the figures as computed from the complementary error function).
    private static readonly Dictionary<double, double> Tail = new()
    {
        [-1] = 0.841345,
        [0] = 0.5,
        [0.5] = 0.308538,
        [1] = 0.158655,
        [1.5] = 0.0668072,
        [2] = 0.0227501,
        [3] = 0.00134990,
        [3.5] = 0.000232629,
    };

    [Fact]
    public void Of_TimesAsComputed_FinishesAsPlannedAndIsSure()
    {
        var request = Crowd(spread: null) with { Tickets = [.. Enumerable.Range(0, 6).Select(i => new PlanTicket(i, At(6).AddHours(2 * i), 1, [2 * i, (2 * i) + 1]))] };
        var live = LivePlan.Start(request);
        var finish = live.Plan.Stages.GroupBy(s => s.SheetId).ToDictionary(g => g.Key, g => g.Max(s => s.FinishUtc));
        var outlooks = LatenessSimulation.Of(live, runs: 9);
        Assert.Equal(Enumerable.Range(0, 6), outlooks.Select(o => o.TicketId));
        Assert.All(outlooks, o =>
        {
            var ticket = request.Tickets[o.TicketId];
            var planned = ticket.SheetIds.Max(id => finish[id]);
            Assert.Equal((planned, new FinishSpread(planned, planned, planned)), (o.PlannedUtc, o.Finish));
            // Half a run more of each kind: 0.5 or 9.5 of 10.
            Assert.Equal(planned > ticket.DueUtc ? 0.95 : 0.05, o.LateChance, 10);
        });
        Assert.Equal(2, outlooks.Select(o => o.LateChance).Distinct().Count());
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(0)]
    [InlineData(0.5)]
    [InlineData(1)]
    [InlineData(2)]
    public void Of_OneStageAlone_HasTheChanceOfTheDistribution(double z) => Near(Tail[z], Alone(z).LateChance);

    // It runs since so long that the shorter draws are out of the question: what is left is the tail beyond now.
    [Theory]
    [InlineData(-1, 0.5)]
    [InlineData(1, 1.5)]
    [InlineData(2, 3)]
    [InlineData(3, 3.5)]
    public void Of_StageThatRunsAlready_HasTheChanceGivenThatItIsNotOver(double now, double z) => Near(Tail[z] / Tail[now], Alone(z, since: now).LateChance);

    [Fact]
    public void Of_OverdueStage_IsNotExpectedInThePast()
    {
        var outlook = Alone(z: 0, since: 2);
        Assert.Equal(1, outlook.LateChance, 3);
        Assert.True(outlook.Finish.Half > At(6) + Span(2), $"Half of the runs end by {outlook.Finish.Half:u}.");
    }

    // Over since the late evening, taken out by nobody before six: ten minutes after that it is not a run of ten hours.
    [Fact]
    public void Of_StageThatWasOverAtNight_IsExpectedSoonAfterTheMorning()
    {
        var sheet = Sheet(1, Stage(1, On(1, 2, 100, 2)) with { Spread = Spread, Running = new RunningStage(1, At(13, 50)) });
        var request = new PlanRequest(At(6, 5, 1), [Single(1)], [sheet], EarlyShift) { Tickets = [new PlanTicket(1, At(8, 0, 1), 1, [1])] };
        Assert.InRange(LatenessSimulation.Of(LivePlan.Start(request)).Single().Finish.NinetyFive, At(6, 5, 1), At(6, 15, 1));
    }

    // Two stages in a row of the same spread: the logarithms do not add up, but mean and variance of the times do.
    [Fact]
    public void Of_TwoStagesInARow_TakeTheSumOfBothOnAverage()
    {
        var sheet = Sheet(1, Stage(1, On(1, 0, 100, 0)) with { Spread = Spread }, Stage(2, On(2, 0, 100, 0)) with { Spread = Spread });
        var live = LivePlan.Start(new PlanRequest(At(6), [Single(1), Single(2)], [sheet], Always));
        var ends = LatenessSimulation.Ends(live.Shop, live.Draft, Runs, seed: 1, CancellationToken.None)[0].Select(e => (e - live.Shop.Now) / 60.0).ToList();
        // Mean and variance of a lognormal distribution: exp(m + s²/2) and (exp(s²) - 1) times the square of that.
        var mean = 100 * Math.Exp(0.05 + (0.2 * 0.2 / 2));
        var deviation = Math.Sqrt(2 * (Math.Exp(0.04) - 1)) * mean;
        var found = ends.Average();
        Assert.InRange(found, (2 * mean) - (3 * deviation / Math.Sqrt(Runs)), (2 * mean) + (3 * deviation / Math.Sqrt(Runs)));
        Assert.Equal(deviation, Math.Sqrt(ends.Average(e => (e - found) * (e - found))), deviation * 0.05);
    }

    [Fact]
    public void Of_SameSeed_GivesTheSameAnswerAndAnotherSeedAnother()
    {
        var live = LivePlan.Start(Crowd(Spread));
        Assert.Equal(LatenessSimulation.Of(live, 50, seed: 3), LatenessSimulation.Of(live, 50, seed: 3));
        Assert.NotEqual(LatenessSimulation.Of(live, 50, seed: 3), LatenessSimulation.Of(live, 50, seed: 4));
    }

    // The draws belong to the stages, not to the plan: a later due time meets the same finishes.
    [Fact]
    public void Of_LaterDueTime_IsNeverLessLikelyToBeKept()
    {
        var chances = new[] { -1, 0, 0.5, 1, 2 }.Select(z => Alone(z).LateChance).ToList();
        Assert.Equal(chances.OrderDescending(), chances);
        Assert.Equal(chances.Count, chances.Distinct().Count());
    }

    [Fact]
    public void Of_CrowdedRoom_HasChancesBelowOneAndQuantilesInOrder() =>
        Assert.All(LatenessSimulation.Of(LivePlan.Start(Crowd(Spread))), o =>
        {
            Assert.InRange(o.LateChance, 1e-9, 1 - 1e-9);
            Assert.True(o.Finish.Half <= o.Finish.Eighty && o.Finish.Eighty <= o.Finish.NinetyFive, o.ToString());
            Assert.True(o.Finish.Half < o.Finish.NinetyFive, o.ToString());
        });

    // The drawn times do not fit before the calendar's end: that is late, not an error.
    [Fact]
    public void Of_CalendarThatEndsBeforeTheDrawnWork_IsLate()
    {
        var day = new WorkingTime([new WorkingInterval(At(6), At(8))]);
        var sheet = Sheet(1, Stage(1, On(1, 0, 110, 5)) with { Spread = Spread });
        var request = new PlanRequest(At(6), [Single(1)], [sheet], day) { Tickets = [new PlanTicket(1, At(0, 0, 9), 1, [1])] };
        Assert.InRange(LatenessSimulation.Of(LivePlan.Start(request)).Single().LateChance, 0.3, 0.9);
    }

    // Sheet 1 is planned first on machine 1, at 6:30, but comes at 7:45; sheet 2 was planned for 7:30.
    [Fact]
    public void Of_SheetThatComesLate_DoesNotKeepTheMachineFromTheNextOne()
    {
        var longer = new TimeSpread(Math.Log(3.5), 0);
        var first = Sheet(1, Stage(11, On(2, 0, 30, 0)) with { Spread = longer }, Stage(12, On(1, 0, 60, 0))) with { DueUtc = At(7) };
        var second = Sheet(2, Stage(21, On(1, 0, 60, 0))) with { DueUtc = At(9), ReadyUtc = At(6, 28) };
        var live = LivePlan.Start(new PlanRequest(At(6), [Single(1), Single(2)], [first, second], Always) { Tickets = [new PlanTicket(1, At(7), 1, [1]), new PlanTicket(2, At(9), 1, [2])] });
        Assert.Equal([At(7, 30), At(8, 30)], LatenessSimulation.Of(live, runs: 1).Select(o => o.PlannedUtc));
        Assert.Equal([At(8, 45), At(7, 28)], LatenessSimulation.Of(live, runs: 1).Select(o => o.Finish.Half));
    }

    [Fact]
    public void Ends_OfOneTicketAlone_AreThoseOfTheWholeRoom()
    {
        var live = LivePlan.Start(Crowd(Spread));
        var all = LatenessSimulation.Ends(live.Shop, live.Draft, 40, seed: 1, CancellationToken.None);
        Assert.All(Enumerable.Range(0, all.Length), t => Assert.Equal(all[t], LatenessSimulation.Ends(live.Shop, live.Draft, 40, seed: 1, CancellationToken.None, only: t)[t]));
    }

    [Fact]
    public void Of_NoRuns_IsRefused() => Assert.Throws<ArgumentOutOfRangeException>(() => LatenessSimulation.Of(LivePlan.Start(Crowd(Spread)), runs: 0));

    // 100 minutes on one machine; due, and if it runs already also now, at the quantile z of its real time.
    private static TicketOutlook Alone(double z, double? since = null)
    {
        var running = since is null ? null : new RunningStage(1, At(6));
        var sheet = Sheet(1, Stage(1, On(1, 0, 100, 0)) with { Spread = Spread, Running = running });
        var request = new PlanRequest(since is { } now ? At(6) + Span(now) : At(6), [Single(1)], [sheet], Always) { Tickets = [new PlanTicket(5, At(6) + Span(z), 1, [1])] };
        return LatenessSimulation.Of(LivePlan.Start(request), Runs).Single();
    }

    private static TimeSpan Span(double z) => Min(100 * Math.Exp(Spread.LogMean + (Spread.LogDeviation * z)));

    private static void Near(double chance, double found)
    {
        var three = 3 * Math.Sqrt(chance * (1 - chance) / Runs);
        Assert.InRange(found, chance - three, chance + three);
    }

    private static PlanRequest Crowd(TimeSpread? spread) => new(
        At(6), [Single(1), Single(2), Slots(3, 2)],
        [.. Enumerable.Range(0, 12).Select(i => Sheet(
            i, Stage((10 * i) + 1, On(1, 2, 20, 1), On(2, 2, 20, 1)) with { Spread = spread, LongestWaitAfter = Min(60) }, Stage((10 * i) + 2, On(3, 1, 60, 1)) with { Spread = spread }))],
        EarlyShift)
    {
        Operators = [EarlyShift, EarlyShift],
        Tickets = [.. Enumerable.Range(0, 12).Select(i => new PlanTicket(i, At(6 + i), 1, [i]))],
    };
}

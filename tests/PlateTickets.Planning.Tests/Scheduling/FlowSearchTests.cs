using CsCheck;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Checking;
using PlateTickets.Planning.Scheduling.Engine;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

/// <summary>The search for the least makespan of plain flow shops.</summary>
public sealed class FlowSearchTests
{
    private static readonly Gen<int[][]> Durations =
        from jobs in Gen.Int[2, 12]
        from stages in Gen.Int[2, 5]
        from least in Gen.Int[0, 1]
        from durations in Gen.Int[least, 99].Array[jobs].Array[stages]
        select durations;

    // S. M. Johnson, Optimal two- and three-stage production schedules with setup times included, Naval Research Logistics Quarterly 1, 1954.
    [Fact]
    public void TwoMachines_TakeAsLongAsJohnsonsRuleSays() =>
        Gen.Int[1, 99].Array[2, 12].SelectMany(first => Gen.Int[1, 99].Array[first.Length].Select(second => new[] { first, second })).Sample(
            durations =>
            {
                var search = Search(new Shop(Request(durations, [1, 1])));
                Assert.Equal(Johnson(durations[0], durations[1]), search.Makespan / 60);
            },
            iter: 100);

    [Fact]
    public void WhatIsFound_IsAPlanOfThatLength_AndNoShorterThanItsStagesAllow() => Durations.SelectMany(d => Gen.Int[1, 3].Array[d.Length].Select(units => (d, units))).Sample(
        room =>
        {
            var (durations, units) = room;
            var request = Request(durations, units);
            var shop = new Shop(request);
            var search = Search(shop);
            var placing = new Placing(shop);
            var order = search.Order();
            Assert.True(placing.Build(order, [.. Enumerable.Repeat(-1, shop.Ops)], double.MaxValue));
            Assert.InRange(placing.Cost.Main, Bound(durations, units), search.Makespan);
            if (!durations.Any(d => d.Contains(0)))
            {
                Assert.Empty(PlanChecker.Violations(request, Published.Plan(shop, placing.Finish(order, null))));
            }
        },
        iter: 100);

    [Fact]
    public void APush_EndsNoLaterThanBefore() => Durations.SelectMany(d => Gen.Int[1, 3].Array[d.Length].Select(units => (d, units))).Sample(
        room =>
        {
            var plan = new FlowPlan(FlowShop.Of(new Shop(Request(room.d, room.units)), [])!);
            plan.Enter([.. Enumerable.Range(0, room.d[0].Length)]);
            for (var i = 0; i < 6; i++)
            {
                var before = plan.Makespan;
                plan.Push();
                Assert.InRange(plan.Makespan, Bound(room.d, room.units), before);
            }
        },
        iter: 200);

    [Fact]
    public void OtherShops_AreNoPlainFlowShops()
    {
        var plain = Request([[1, 2], [3, 4]], [1, 2]);
        Assert.NotNull(Of(plain));
        Assert.Null(Of(plain with { Goal = PlanGoal.Tardiness }));
        Assert.Null(Of(plain with { Operators = [Always] }));
        Assert.Null(Of(plain with { Working = EarlyShift }));
        Assert.Null(Of(plain with { Downtime = [new(0, At(1), At(2))] }));
        Assert.Null(Of(plain with { Sheets = [plain.Sheets[0], plain.Sheets[1] with { ReadyUtc = At(3) }] }));
        Assert.Null(Of(plain with { Sheets = [plain.Sheets[0], plain.Sheets[1] with { Stages = [.. plain.Sheets[1].Stages.Reverse()] }] }));
        Assert.Null(Of(plain with { Sheets = [plain.Sheets[0], plain.Sheets[1] with { Stages = [plain.Sheets[1].Stages[0]] }] }));
        Assert.Null(FlowShop.Of(new Shop(plain), [true, false, false, false]));

        static FlowShop? Of(PlanRequest request) => FlowShop.Of(new Shop(request), []);
    }

    private static FlowSearch Search(Shop shop)
    {
        var search = FlowSearch.Of(shop, [], 1)!;
        foreach (var leg in (Action<Func<double>>[])[l => search.Rank(false, l), l => search.Rank(true, l), search.Push])
        {
            var asked = 0;
            leg(() => asked++ / 100.0);
        }

        return search;
    }

    // Minutes; those of the same stage are on one machine with so many units.
    private static PlanRequest Request(int[][] durations, int[] units) => new(
        At(0),
        [.. units.Select((count, stage) => count == 1 ? Single(stage) : Slots(stage, count))],
        [.. durations[0].Select((_, job) => Sheet(job, [.. durations.Select((d, stage) => Stage((10 * job) + stage, On(stage, 0, d[job], 0)))]))],
        Always)
    { Goal = PlanGoal.Makespan };

    private static double Bound(int[][] durations, int[] units) => 60 * Math.Max(
        durations[0].Select((_, job) => durations.Sum(d => d[job])).Max(),
        durations.Zip(units).Max(d => (double)d.First.Sum() / d.Second));

    private static int Johnson(int[] first, int[] second)
    {
        var jobs = Enumerable.Range(0, first.Length).ToList();
        var order = jobs.Where(j => first[j] < second[j]).OrderBy(j => first[j]).Concat(jobs.Where(j => first[j] >= second[j]).OrderByDescending(j => second[j]));
        var (a, b) = (0, 0);
        foreach (var job in order)
        {
            a += first[job];
            b = Math.Max(a, b) + second[job];
        }

        return b;
    }
}

using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Checking;
using PlateTickets.Planning.Scheduling.Engine;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

/// <summary>Small published shops whose shortest length is proved: the improved plan must reach it. It stops as soon as it has proved it too.</summary>
public sealed class PublishedOptimaTests
{
    // Fisher and Thompson, in Muth and Thompson (ed.), "Industrial Scheduling", 1963 (ft06): machine and time of each operation.
    private const string Ft06 = """
        2 1 0 3 1 6 3 7 5 3 4 6
        1 8 2 5 4 10 5 10 0 10 3 4
        2 5 3 4 5 8 0 9 1 1 4 7
        1 5 0 5 2 5 3 3 4 8 5 9
        2 9 1 3 4 5 5 4 0 3 3 1
        1 3 3 3 5 9 0 10 4 4 2 1
        """;

    // S. Lawrence, "Resource constrained project scheduling: an experimental investigation of heuristic scheduling techniques
    // (supplement)", Carnegie-Mellon University, 1984 (la01).
    private const string La01 = """
        1 21 0 53 4 95 3 55 2 34
        0 21 3 52 4 16 2 26 1 71
        3 39 4 98 1 42 2 31 0 12
        1 77 0 55 4 79 2 66 3 77
        0 83 3 34 2 64 1 19 4 37
        1 54 2 43 4 79 0 92 3 62
        3 69 4 77 1 87 2 87 0 93
        2 38 0 60 1 41 3 24 4 83
        3 17 1 49 4 25 0 44 2 98
        4 77 3 79 2 43 1 75 0 96
        """;

    [Theory]
    [InlineData(Ft06, 55)]
    [InlineData(La01, 666)]
    public void Improve_PublishedJobShop_ReachesItsShortestLength(string table, int length)
    {
        var rows = table.Split('\n').Select(l => l.Trim().Split(' ').Select(int.Parse).ToArray()).ToArray();
        var machines = rows[0].Length / 2;
        var request = new PlanRequest(
            At(0), [.. Enumerable.Range(0, machines).Select(Single)],
            [.. rows.Select((row, j) => Sheet(j, [.. Enumerable.Range(0, machines).Select(k => Stage((100 * j) + k, On(row[2 * k], 0, row[(2 * k) + 1], 0)))]))], Always)
        {
            Goal = PlanGoal.Makespan,
        };
        var plan = PlanImprover.Improve(request, new ImproveOptions(TimeSpan.FromSeconds(20)), TimeProvider.System);
        Assert.Empty(PlanChecker.Violations(request, plan));
        Assert.Equal(At(0, length), plan.Stages.Max(s => s.FinishUtc));
    }

    // W. E. Smith, "Various optimizers for single-stage production", Naval Research Logistics Quarterly 3, 1956: on one machine the
    // weighted sum of finish times is least in the order of time divided by weight. When all are late anyway, that is the weighted tardiness.
    [Fact]
    public void OneMachineAndAllLate_FollowsSmithsRule()
    {
        (int Minutes, double Weight)[] jobs = [(30, 1), (45, 3), (10, 1), (80, 2), (25, 4), (60, 1), (15, 2), (50, 3)];
        var request = new PlanRequest(
            At(6), [Single(1)], [.. jobs.Select((j, i) => Sheet(i, Stage(i, On(1, 0, j.Minutes, 0))) with { DueUtc = At(5), Weight = j.Weight })], Always);
        var (at, best) = (60, 0.0);
        int[] smith = [.. Enumerable.Range(0, jobs.Length).OrderBy(i => jobs[i].Minutes / jobs[i].Weight)];
        foreach (var i in smith)
        {
            at += jobs[i].Minutes;
            best += 60 * jobs[i].Weight * at;
        }

        Assert.True(new Dispatch(new Shop(request)).Run().Cost.Main > best, "The order of due-by is the best one already: this room tests nothing.");
        foreach (var plan in new[] { DispatchPlanner.Build(request), PlanImprover.Improve(request, new ImproveOptions(TimeSpan.FromMilliseconds(300), Workers: 1), TimeProvider.System) })
        {
            Assert.Equal(best, plan.Cost.Main);
            Assert.Equal(smith, plan.Stages.OrderBy(s => s.StartUtc).Select(s => s.SheetId));
        }
    }

    // J. M. Moore, "An n job, one machine sequencing algorithm for minimizing the number of late jobs", Management Science 15, 1968,
    // first step; the rule of J. R. Jackson, 1955 (report, cited from memory): if any order keeps all due times, that of the due times does.
    [Fact]
    public void Improve_OneMachineOnWhichAllCanBeInTime_MakesNobodyLate()
    {
        (int Minutes, int Due)[] jobs = [(50, 240), (20, 60), (30, 110), (10, 30), (60, 170), (60, 230)];
        var request = new PlanRequest(
            At(6), [Single(1)], [.. jobs.Select((j, i) => Sheet(i, Stage(i, On(1, 0, j.Minutes, 0))) with { DueUtc = At(6, j.Due) })], Always);
        var plan = PlanImprover.Improve(request, new ImproveOptions(TimeSpan.FromMilliseconds(100), Workers: 1), TimeProvider.System);
        Assert.Equal(0, plan.Cost.Main);
        Assert.All(plan.Stages, s => Assert.True(s.FinishUtc <= request.Sheets[s.SheetId].DueUtc));
    }
}

using PlateTickets.Planning.Scheduling;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

/// <summary>Finite-capacity arithmetic against small published shops. One unit of the tables is an hour, so that near ties play no part.</summary>
public sealed class PublishedShopTests
{
    // Two machines in a row, jobs in the order that Johnson's rule gives (S. M. Johnson, "Optimal two- and three-stage production
    // schedules with setup times included", Naval Research Logistics Quarterly 1, 1954). First case: the five jobs of the example in
    // Heizer and Render, "Operations Management" (figures from memory). Second case: an exercise of five jobs with no better source.
    // The lengths of 35 and 28 are the shortest of all 120 orders of each case, found by trying them.
    [Theory]
    [InlineData(new[] { 3, 7, 10, 8, 5 }, new[] { 6, 12, 7, 4, 2 }, 35)]
    [InlineData(new[] { 1, 3, 7, 5, 10 }, new[] { 7, 6, 5, 4, 2 }, 28)]
    public void Two_machines_in_a_row_take_as_long_as_Johnsons_rule_says(int[] first, int[] second, int hours)
    {
        var sheets = first.Select((a, i) => Sheet(i, Stage(2 * i, On(1, 0, 60 * a, 0)), Stage((2 * i) + 1, On(2, 0, 60 * second[i], 0)))
            with
        { DueUtc = At(0, 0, 10 + i) }).ToList();
        var plan = Plan(new PlanRequest(At(0), [Single(1), Single(2)], sheets, Always));
        Assert.Equal(first.Select((_, i) => i), plan.Values.Where(p => p.EquipmentId == 2).OrderBy(p => p.StartUtc).Select(p => p.SheetId));
        Assert.Equal(At(hours), plan.Values.Max(p => p.FinishUtc));
    }

    // Fisher and Thompson, "Probabilistic learning combinations of local job-shop scheduling rules", in Muth and Thompson (ed.),
    // "Industrial Scheduling", 1963: the job shop of 6 jobs on 6 machines, known as ft06; machine and time of each operation.
    // Its shortest length is 55, so no plan that keeps the rules is shorter, and a dispatch that keeps machines busy is not far above.
    private static readonly (int Machine, int Time)[][] Ft06 =
    [
        [(2, 1), (0, 3), (1, 6), (3, 7), (5, 3), (4, 6)],
        [(1, 8), (2, 5), (4, 10), (5, 10), (0, 10), (3, 4)],
        [(2, 5), (3, 4), (5, 8), (0, 9), (1, 1), (4, 7)],
        [(1, 5), (0, 5), (2, 5), (3, 3), (4, 8), (5, 9)],
        [(2, 9), (1, 3), (4, 5), (5, 4), (0, 3), (3, 1)],
        [(1, 3), (3, 3), (5, 9), (0, 10), (4, 4), (2, 1)],
    ];

    [Fact]
    public void The_job_shop_of_Fisher_and_Thompson_is_planned_within_the_rules_and_not_below_its_optimum()
    {
        var sheets = Ft06.Select((job, j) => Sheet(j, [.. job.Select((o, i) => Stage((10 * j) + i, On(o.Machine, 0, 60 * o.Time, 0)))])).ToList();
        var plan = Plan(new PlanRequest(At(0), [.. Enumerable.Range(0, 6).Select(Single)], sheets, Always));
        var hours = (plan.Values.Max(p => p.FinishUtc) - At(0)).TotalHours;
        Assert.InRange(hours, 55, 75);
    }
}

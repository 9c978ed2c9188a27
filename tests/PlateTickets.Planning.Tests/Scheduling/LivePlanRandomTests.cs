using CsCheck;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Checking;
using PlateTickets.Planning.Scheduling.Replanning;

namespace PlateTickets.Planning.Tests.Scheduling;

/// <summary>Random rooms that go on for a while between one plan and the next.</summary>
public sealed class LivePlanRandomTests
{
    [Fact]
    public void The_same_request_again_gives_the_same_plan_or_one_worth_changing_to() => RandomRoom.FullRequests.Sample(StaysOrIsWorthIt, iter: 2_000);

    /// <summary>A room where a stage is put off for the next one by which machines that may take: held to its machines the plan became another, and a worse one.</summary>
    [Fact]
    public void A_plan_whose_machines_followed_from_its_order_stays() => RandomRoom.FullRequests.Sample(StaysOrIsWorthIt, iter: 1, seed: "b8CskorvuGV7");

    [Fact]
    public void A_room_that_went_on_gets_a_plan_that_keeps_every_rule() =>
        Later.Sample(
            later =>
            {
                var plan = LivePlan.Start(later.Request).Plan;
                var now = GoneOn(later.Request, plan, later.Minutes, later.Luck);
                Assert.Empty(PlanChecker.Violations(now, LivePlan.Start(now, plan).Plan));
            },
            iter: 2_000);

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Improving_it_keeps_every_rule_and_what_is_held(int workers) =>
        Later.Sample(
            later =>
            {
                var plan = LivePlan.Start(later.Request).Plan;
                var now = GoneOn(later.Request, plan, later.Minutes, later.Luck);
                var live = LivePlan.Start(now, plan);
                var before = live.Plan;
                var improved = live.Improve(new ImproveOptions(TimeSpan.FromMilliseconds(50), Workers: workers), TimeProvider.System);
                Assert.Empty(PlanChecker.Violations(now, live.Plan));
                Assert.Equal(improved, live.Plan.Cost != before.Cost);
                Assert.True(live.Plan.Cost <= before.Cost);
                Assert.All(live.Plan.Stages.Zip(before.Stages).Where((_, op) => live.Held[op]), s => Assert.Equal(s.Second, s.First));
            },
            iter: 25, threads: 1);

    private static void StaysOrIsWorthIt(PlanRequest request)
    {
        var plan = LivePlan.Start(request).Plan;
        var again = LivePlan.Start(request, plan).Plan;
        if (!PlanRules.Usual.IsWorth(again.Cost, plan.Cost))
        {
            Assert.Equal(plan.Stages.Select(AnySlot), again.Stages.Select(AnySlot));
        }
    }

    // Slots of one machine are as good as each other.
    private static PlannedStage AnySlot(PlannedStage stage) => stage with { Slot = 0 };

    private static readonly Gen<(PlanRequest Request, int Minutes, int Luck)> Later = Gen.Select(RandomRoom.FullRequests, Gen.Int[0, 600], Gen.Int[0, 1000]);

    /// <summary>
    /// Some minutes later: what should be over is over or takes a little longer, what should have begun has begun, now and
    /// then on another machine, or not yet.
    /// </summary>
    internal static PlanRequest GoneOn(PlanRequest request, Plan plan, int minutes, int luck)
    {
        var random = new Random(luck);
        var now = request.NowUtc.AddMinutes(minutes);
        var at = plan.Stages.ToDictionary(s => s.StageId);
        return request with
        {
            NowUtc = now,
            Sheets = [.. request.Sheets.Select(sheet =>
            {
                var stages = sheet.Stages.ToList();
                var ready = sheet.ReadyUtc;
                while (stages.Count > 0 && at[stages[0].Id].FinishUtc <= now && random.Next(8) > 0)
                {
                    ready = at[stages[0].Id].FinishUtc + stages[0].LeastWaitAfter;
                    stages.RemoveAt(0);
                }

                if (stages.Count > 0 && at[stages[0].Id] is var first && first.StartUtc <= now && random.Next(8) > 0)
                {
                    var machine = random.Next(8) == 0 ? stages[0].Options[0].EquipmentId : first.EquipmentId;
                    stages[0] = stages[0] with { Running = stages[0].Running ?? new RunningStage(machine, first.StartUtc) };
                }

                return sheet with { ReadyUtc = ready, Stages = stages };
            })],
        };
    }
}

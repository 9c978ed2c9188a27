using CsCheck;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Checking;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

public sealed class RandomRoomTests
{
    [Fact]
    public void Every_plan_keeps_every_rule() =>
        RandomRoom.Requests.Sample(request => Assert.Empty(PlanChecker.Violations(request, DispatchPlanner.Build(request))), iter: 2_000);

    [Fact]
    public void Every_plan_of_a_room_with_counted_people_downtime_waits_and_sets_keeps_every_rule() =>
        RandomRoom.FullRequests.Sample(request => Assert.Empty(PlanChecker.Violations(request, DispatchPlanner.Build(request))), iter: 2_000);

    [Fact]
    public void Improved_plans_keep_every_rule_and_are_never_worse() =>
        RandomRoom.FullRequests.Sample(
            request =>
            {
                var first = DispatchPlanner.Build(request);
                var better = PlanImprover.Improve(request, new ImproveOptions(TimeSpan.FromMilliseconds(40), Workers: 1), TimeProvider.System);
                Assert.Empty(PlanChecker.Violations(request, better));
                Assert.True(better.Cost <= first.Cost);
            },
            iter: 100, threads: 1);

    [Fact]
    public void Solved_plans_keep_every_rule_and_are_never_worse() =>
        RandomRoom.FullRequests.Sample(
            request =>
            {
                var first = DispatchPlanner.Build(request);
                var better = PlanImprover.Improve(request, new ImproveOptions(TimeSpan.FromMilliseconds(150)), TimeProvider.System);
                Assert.Empty(PlanChecker.Violations(request, better));
                Assert.True(better.Cost <= first.Cost);
            },
            iter: 40, threads: 1);

    [Fact]
    public void The_same_request_gives_the_same_plan() =>
        RandomRoom.Requests.Sample(request => Assert.Equal(DispatchPlanner.Build(request).Stages, DispatchPlanner.Build(request).Stages));

    [Fact]
    public void Due_bys_are_those_of_the_backward_pass() =>
        RandomRoom.Requests.Sample(request =>
        {
            var plan = DispatchPlanner.Build(request).Stages.ToDictionary(s => s.StageId);
            Assert.All(request.Sheets, s => Assert.Equal(DueBy.Of(s, request.Working), s.Stages.Select(t => plan[t.Id].DueByUtc)));
        });

    // Nobody is in its way, so what the backward pass promises, going forward must keep: one late stage means all are late.
    [Fact]
    public void Alone_in_the_room_a_sheet_is_late_at_every_stage_or_at_none() =>
        RandomRoom.Requests.Where(r => r.Sheets.Count > 0).Sample(request =>
        {
            var alone = request with { Sheets = [request.Sheets[0]] };
            var plan = DispatchPlanner.Build(alone).Stages;
            if (plan[0].FinishUtc > alone.NowUtc)
            {
                Assert.Single(plan.Select(s => s.Slack < TimeSpan.Zero).Distinct());
            }
        });

    // Somebody is always there, so nothing but its sheet or a full machine may keep a stage waiting.
    [Fact]
    public void A_machine_without_setup_is_never_idle_while_a_sheet_waits_for_it() =>
        RandomRoom.Requests.Sample(request =>
        {
            var room = request with
            {
                Working = Always,
                Equipment = [.. request.Equipment.Select(e => e.Kind == EquipmentKind.Line ? Single(e.Id) : e)],
            };
            var plan = DispatchPlanner.Build(room).Stages.ToDictionary(s => s.StageId);
            foreach (var sheet in room.Sheets)
            {
                var ready = sheet.ReadyUtc > room.NowUtc ? sheet.ReadyUtc : room.NowUtc;
                foreach (var stage in sheet.Stages)
                {
                    var at = plan[stage.Id];
                    if (stage.Running is null && at.StartUtc > ready)
                    {
                        Assert.True(Full(room, plan.Values, at), $"Stage {stage.Id} waits for machine {at.EquipmentId}, which is free.");
                    }

                    ready = at.FinishUtc + stage.LeastWaitAfter;
                }
            }
        });

    private static bool Full(PlanRequest room, IEnumerable<PlannedStage> plan, PlannedStage at)
    {
        var machine = room.Equipment.Single(e => e.Id == at.EquipmentId);
        var slots = machine.Kind == EquipmentKind.Slots ? machine.Slots : 1;
        var justBefore = at.StartUtc.AddTicks(-1);
        return plan.Count(o => o.EquipmentId == machine.Id && o.StartUtc <= justBefore && justBefore < o.FinishUtc) >= slots;
    }
}

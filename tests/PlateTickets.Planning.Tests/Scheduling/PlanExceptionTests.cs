using PlateTickets.Planning.Scheduling;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

public sealed class PlanExceptionTests
{
    private static readonly PlanSheet Good = Sheet(7, Stage(70, On(1, 5, 10, 5)));
    private static readonly PlanTicket Ticket = new(3, At(12), 1, [7]);

    [Fact]
    public void Build_CalendarEnds_SaysThatItMustReachFurther()
    {
        var day = new WorkingTime([new WorkingInterval(At(6), At(14))]);
        var sheet = Sheet(7, Stage(70, On(1, 5, 24 * 60, 5)));
        Assert.Equal(
            "Stage 70 of sheet 7 cannot be placed, because the calendar's working time ends at 2026-03-02 14:00 UTC: the calendar must reach further, so give shifts for more days or take sheets out of the plan.",
            Refused(new PlanRequest(At(6), [Single(1)], [sheet], day)));
    }

    [Fact]
    public void Build_NobodyEverThere_SaysSo() =>
        Assert.Contains("the calendar has no working time at all", Refused(new PlanRequest(At(6), [Single(1)], [Good], new WorkingTime([]))), StringComparison.Ordinal);

    [Fact]
    public void Build_RunningStageThatNobodyCanUnload_SaysThatTheCalendarMustReachFurther()
    {
        var running = Sheet(7, Good.Stages[0] with { Running = new RunningStage(1, At(13, 50)) });
        Assert.Contains("must reach further", Refused(new PlanRequest(At(13, 55), [Single(1)], [running], new WorkingTime([new WorkingInterval(At(6), At(14))]))), StringComparison.Ordinal);
    }

    [Fact]
    public void Build_ChangeoverAfterTheCalendarsEnd_SaysThatItMustReachFurther()
    {
        var sheets = new[] { Sheet(1, Stage(1, On(1, 5, 10, 5))) with { DueUtc = At(8) }, Sheet(2, Stage(2, On(1, 5, 10, 5))) with { RecipeId = 2 } };
        Assert.Contains("must reach further", Refused(new PlanRequest(At(13), [Line(1, 50)], sheets, new WorkingTime([new WorkingInterval(At(6), At(14))]))), StringComparison.Ordinal);
    }

    [Fact]
    public void Build_UnloadingLongerThanEveryShift_SaysHowLong() =>
        Assert.Contains(
            "needs somebody for 300 minutes without a break, but the longest working time of the calendar is 240 minutes",
            Refused(new PlanRequest(At(6), [Single(1)], [Sheet(7, Stage(70, On(1, 5, 10, 300)))], EarlyShift)), StringComparison.Ordinal);

    [Theory]
    [MemberData(nameof(Contradictions))]
    public void Build_RequestThatContradictsItself_IsRefusedWithTheReason(string reason, PlanRequest request) =>
        Assert.Contains(reason, Refused(request), StringComparison.Ordinal);

    public static TheoryData<string, PlanRequest> Contradictions()
    {
        var local = DateTime.SpecifyKind(At(6), DateTimeKind.Local);
        var running = new RunningStage(1, At(5));
        return new TheoryData<string, PlanRequest>
        {
            { "present time has no UTC kind", Request(Good) with { NowUtc = local } },
            { "Machine 1 is listed twice", Request(Good) with { Equipment = [Single(1), Single(1)] } },
            { "Machine 1 has 0 slots", Request(Good) with { Equipment = [Slots(1, 0)] } },
            { "changeover of less than nothing", Request(Good) with { Equipment = [Line(1, -1)] } },
            { "Sheet 7 is listed twice", Request(Good, Good) },
            { "weight of 0", Request(Good with { Weight = 0 }) },
            { "weight of NaN", Request(Good with { Weight = double.NaN }) },
            { "ready or due time of sheet 7", Request(Good with { DueUtc = local }) },
            { "Stage 70 of sheet 8 is listed twice", Request(Good, Good with { Id = 8 }) },
            { "no machine that could do it", Request(Good with { Stages = [Stage(70)] }) },
            { "asks for machine 9", Request(Sheet(7, Stage(70, On(9, 1, 1, 1)))) },
            { "less than nothing", Request(Sheet(7, Stage(70, On(1, 1, -1, 1)))) },
            { "running although an earlier one", Request(Good with { Stages = [Good.Stages[0], Stage(71, On(1, 1, 1, 1)) with { Running = running }] }) },
            { "no times for it are given", Request(Sheet(7, Stage(70, On(2, 1, 1, 1)) with { Running = running })) },
            { "Ticket 3 is listed twice", Request(Good) with { Tickets = [Ticket, Ticket] } },
            { "Ticket 3 waits for sheet 8, which is not in the plan", Request(Good) with { Tickets = [Ticket with { SheetIds = [7, 8] }] } },
            { "Ticket 3 has a weight of 0", Request(Good) with { Tickets = [Ticket with { Weight = 0 }] } },
            { "Ticket 3 has a weight of Infinity", Request(Good) with { Tickets = [Ticket with { Weight = double.PositiveInfinity }] } },
            { "The due time of ticket 3 has no UTC kind", Request(Good) with { Tickets = [Ticket with { DueUtc = local }] } },
            { "Machine 9 is said to be down", Request(Good) with { Downtime = [new Downtime(9, At(6), At(7))] } },
            { "A downtime of machine 1 has no UTC kind", Request(Good) with { Downtime = [new Downtime(1, local, At(7))] } },
            { "A downtime of machine 1 ends at", Request(Good) with { Downtime = [new Downtime(1, At(7), At(6))] } },
            { "A downtime of machine 1 ends at", Request(Good) with { Downtime = [new Downtime(1, At(7), At(7))] } },
            { "counts operators, but there is none", Request(Good) with { Operators = [] } },
            { "less than nothing", Request(Good with { Stages = [Good.Stages[0] with { LongestWaitAfter = Min(-1) }] }) },
            { "The start of stage 70", Request(Good with { Stages = [Good.Stages[0] with { Running = new RunningStage(1, local) }] }) },
        };
    }

    private static PlanRequest Request(params PlanSheet[] sheets) => new(At(6), [Single(1), Single(2)], sheets, Always);

    private static string Refused(PlanRequest request) => Assert.Throws<PlanException>(() => DispatchPlanner.Build(request)).Message;
}

using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Checking;

namespace PlateTickets.Planning.Tests.Scheduling;

/// <summary>Short ways to write rooms, sheets and times; minutes everywhere. Monday 2026-03-02 is a plain week without clock changes.</summary>
internal static class Rooms
{
    public static readonly DateTime Monday = new(2026, 3, 2, 0, 0, 0, DateTimeKind.Utc);

    public static readonly WorkingTime Always = WorkingTime.Always(Monday.AddDays(-30), Monday.AddDays(60));

    /// <summary>06:00 to 10:00 and 10:30 to 14:00 UTC, every day.</summary>
    public static readonly WorkingTime EarlyShift = new(Enumerable.Range(-10, 70).SelectMany(d => new[]
    {
        new WorkingInterval(At(6, 0, d), At(10, 0, d)),
        new WorkingInterval(At(10, 30, d), At(14, 0, d)),
    }));

    public static DateTime At(int hour, int minute = 0, int day = 0) => Monday.AddDays(day).AddHours(hour).AddMinutes(minute);

    public static TimeSpan Min(double minutes) => TimeSpan.FromMinutes(minutes);

    public static PlanEquipment Single(int id) => new(id, EquipmentKind.Single, 1, TimeSpan.Zero);

    public static PlanEquipment Slots(int id, int slots) => new(id, EquipmentKind.Slots, slots, TimeSpan.Zero);

    public static PlanEquipment Line(int id, double changeover) => new(id, EquipmentKind.Line, 1, Min(changeover));

    public static StageOption On(int equipment, double load, double run, double unload, double spacing = 0) =>
        new(equipment, Min(load), Min(run), Min(unload), Min(spacing));

    public static PlanStage Stage(int id, params StageOption[] options) => new(id, options, TimeSpan.Zero);

    public static PlanSheet Sheet(int id, params PlanStage[] stages) => new(id, At(0), At(0, 0, 10), 1, 1, stages);

    /// <summary>Builds the plan and insists that the independent check finds nothing wrong with it.</summary>
    public static Dictionary<int, PlannedStage> Plan(PlanRequest request)
    {
        var plan = DispatchPlanner.Build(request);
        Assert.Empty(PlanChecker.Violations(request, plan));
        return plan.Stages.ToDictionary(s => s.StageId);
    }
}

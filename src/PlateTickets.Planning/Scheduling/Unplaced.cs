using System.Globalization;
using PlateTickets.Planning.Scheduling.Engine;

namespace PlateTickets.Planning.Scheduling;

/// <summary>Says why a stage found no place.</summary>
internal static class Unplaced
{
    public static PlanException Because(Shop shop, int op)
    {
        var (request, sheet, stage) = (shop.Request, shop.Sheets[shop.JobOf[op]], shop.StageOf(op));
        var longest = request.Operators is { Count: > 0 } people ? people.Max(p => p.Longest) : request.Working.Longest;
        var attended = stage.Options.Min(o => o.Load > o.Unload ? o.Load : o.Unload);
        if (attended > longest && longest > TimeSpan.Zero)
        {
            return new PlanException(string.Create(
                CultureInfo.InvariantCulture,
                $"Stage {stage.Id} of sheet {sheet.Id} needs somebody for {attended.TotalMinutes:0.#} minutes without a break, but the longest working time of the calendar is {longest.TotalMinutes:0.#} minutes: check the recipe's times and the shifts."));
        }

        var end = request.Working.Intervals.Count == 0
            ? "the calendar has no working time at all"
            : string.Create(CultureInfo.InvariantCulture, $"the calendar's working time ends at {request.Working.Intervals[^1].EndUtc:yyyy-MM-dd HH:mm} UTC");
        return new PlanException(string.Create(
            CultureInfo.InvariantCulture,
            $"Stage {stage.Id} of sheet {sheet.Id} cannot be placed, because {end}: the calendar must reach further, so give shifts for more days or take sheets out of the plan."));
    }
}

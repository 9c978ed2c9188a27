using PlateTickets.Planning.Scheduling;

namespace PlateTickets.Tickets.Stations.Duty;

/// <summary>When people are there: all of them together and, where the room counts them, each one.</summary>
/// <param name="Working">Somebody is there.</param>
/// <param name="Operators">One calendar for each operator; null where the room takes it that there are always enough.</param>
public sealed record DutyPlan(WorkingTime Working, IReadOnlyList<WorkingTime>? Operators)
{
    /// <summary>From a room's shifts and the changes to them.</summary>
    public static DutyPlan Of(Room room, IEnumerable<HeadcountChange> changes, DateTime fromUtc, DateTime toUtc)
    {
        if (!room.CountsOperators)
        {
            // Without a headcount somebody who is missing is not missed; overtime still adds time.
            var shifts = room.WorkingBetween(fromUtc, toUtc);
            var more = changes.Where(c => c.People > 0 && c.FromUtc < c.ToUtc).Select(c => new WorkingInterval(c.FromUtc, c.ToUtc));
            return new DutyPlan(new WorkingTime([.. shifts.Intervals, .. more]), null);
        }

        var onDuty = room.Site.Shifts.SelectMany(s => room.WorkingBetween(fromUtc, toUtc, s).Intervals
            .Select(i => new HeadcountChange(i.StartUtc, i.EndUtc, s.Operators!.Value)));
        var operators = Headcount.Operators([.. onDuty, .. changes]);
        return new DutyPlan(operators[0], operators);
    }
}

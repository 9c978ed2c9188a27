using PlateTickets.Planning.Scheduling;

namespace PlateTickets.Benchmarks.Calibration;

/// <summary>
/// Plays a planned room with real times, event by event and without the planner's engine. Every stage stays on its planned
/// machine. A machine that is free takes the sheet that is there and was planned first; a line keeps to the plan's order. A
/// stage after which the sheet may not lie is not begun before its planned start. Who is there loads and unloads what was
/// planned first, if it fits before the next break. Nobody knows beforehand how long anything will take.
/// </summary>
internal sealed class RealDay
{
    private readonly PlanRequest _request;
    private readonly List<Job> _jobs = [];
    private readonly Dictionary<int, Machine> _machines;
    private readonly List<Person> _people;
    private long _now;

    private RealDay(PlanRequest request, Plan plan, Func<PlanStage, double> ratio)
    {
        _request = request;
        var at = plan.Stages.ToDictionary(s => s.StageId);
        _machines = request.Equipment.ToDictionary(e => e.Id, e => new Machine(e));
        _people = [.. request.Operators!.Select(o => new Person([.. o.Intervals.Select(i => (Seconds(i.StartUtc), Seconds(i.EndUtc)))]))];
        foreach (var sheet in request.Sheets)
        {
            _jobs.Add(new Job(sheet.Id, sheet.RecipeId, Math.Max(0, Seconds(sheet.ReadyUtc)), [.. sheet.Stages.Select(t =>
            {
                var (planned, real) = (at[t.Id], ratio(t));
                var option = t.Options.First(o => o.EquipmentId == planned.EquipmentId);
                long Real(TimeSpan time) => (long)Math.Round(time.TotalSeconds * real);
                return new Step(
                    _machines[option.EquipmentId], Seconds(planned.StartUtc), Seconds(planned.FinishUtc - option.Unload), Real(option.Load), Real(option.Run),
                    Real(option.Unload), Real(option.EntrySpacing), (long)t.LeastWaitAfter.TotalSeconds, t.LongestWaitAfter is null ? 0 : Seconds(planned.StartUtc));
            })]));
        }

        foreach (var step in _jobs.SelectMany(j => j.Steps).OrderBy(s => s.PlannedStart))
        {
            step.Machine.Order.Add(step);
        }
    }

    /// <summary>When each sheet is done.</summary>
    /// <param name="request">With operators, and without anything that runs already.</param>
    /// <param name="plan">Its plan.</param>
    /// <param name="ratio">Real time divided by computed time of each stage.</param>
    public static Dictionary<int, DateTime> Play(PlanRequest request, Plan plan, Func<PlanStage, double> ratio)
    {
        var day = new RealDay(request, plan, ratio);
        while (day._jobs.Any(j => !j.Done))
        {
            while (day.Pass())
            {
            }

            day._now = day.NextEvent();
        }

        return day._jobs.ToDictionary(j => j.SheetId, j => request.NowUtc.AddSeconds(j.Since));
    }

    private long Seconds(DateTime utc) => (long)Math.Round((utc - _request.NowUtc).TotalSeconds);

    // What is over moves on; then the first planned of all loadings and unloadings that can begin now begins.
    private bool Pass()
    {
        foreach (var job in _jobs.Where(j => !j.Done && j.Since <= _now))
        {
            if (job.MovesOn())
            {
                return true;
            }
        }

        foreach (var job in _jobs.Where(j => !j.Done && j.Since <= _now && j.Asks).OrderBy(j => j.Planned))
        {
            if ((job.Phase == Phase.Over || CanLoad(job)) && Somebody(job.Attended) is { } person)
            {
                person.BusyUntil = Math.Max(person.BusyUntil, _now + job.Attended);
                job.Begin(_now, _request.Working, _request.NowUtc);
                return true;
            }
        }

        return false;
    }

    private bool CanLoad(Job job) => job.Step.NotBefore <= _now && job.Step.Machine.Takes(job, _now);

    private Person? Somebody(long length) => _people.FirstOrDefault(p => length == 0 || (p.BusyUntil <= _now && p.Shifts.Any(s => s.From <= _now && _now + length <= s.To)));

    private long NextEvent()
    {
        var times = _jobs.Where(j => !j.Done).SelectMany(j => new[] { j.Since, j.Step.NotBefore })
            .Concat(_people.SelectMany(p => p.Shifts.Select(s => s.From).Append(p.BusyUntil)))
            .Concat(_machines.Values.SelectMany(m => m.Events(_jobs)));
        return times.Where(t => t > _now).Min();
    }
}

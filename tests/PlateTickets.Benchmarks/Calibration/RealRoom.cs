using PlateTickets.Planning.Scheduling;

namespace PlateTickets.Benchmarks.Calibration;

internal enum Phase
{
    Waiting,
    Loading,
    Running,
    Over,
    Unloading,
}

/// <summary>Somebody who loads and unloads; all times in seconds from the begin of the day.</summary>
internal sealed class Person((long From, long To)[] shifts)
{
    public (long From, long To)[] Shifts { get; } = shifts;

    public long BusyUntil { get; set; }
}

/// <summary>A stage of a sheet with its real times.</summary>
internal sealed record Step(
    Machine Machine, long PlannedStart, long PlannedUnload, long Load, long Run, long Unload, long Spacing, long WaitAfter, long NotBefore);

/// <summary>A machine: how many sheets it holds, and for a line what entered last.</summary>
internal sealed class Machine(PlanEquipment equipment)
{
    private int _held;
    private int _next;
    private int? _recipe;
    private long _lastEntry;
    private long _nextEntry;
    private long _empty;
    private long _changedOver;

    public List<Step> Order { get; } = [];

    private bool IsLine => equipment.Kind == EquipmentKind.Line;

    public bool Takes(Job job, long now) =>
        !IsLine ? _held < (equipment.Kind == EquipmentKind.Slots ? equipment.Slots : 1)
        : Order[_next] == job.Step && now >= Offers(job);

    /// <summary>The instants at which a line may have become free.</summary>
    public IEnumerable<long> Events(List<Job> jobs) => IsLine && _next < Order.Count ? jobs.Where(j => !j.Done && j.Step == Order[_next]).Select(Offers) : [];

    public void Load(Job job, long now, WorkingTime working, DateTime zero)
    {
        _held++;
        if (!IsLine)
        {
            return;
        }

        var step = job.Step;
        _next++;
        (_recipe, _lastEntry) = (job.RecipeId, now + step.Load);
        (_nextEntry, _empty) = (Math.Max(_nextEntry, _lastEntry + step.Spacing), Math.Max(_empty, _lastEntry + step.Run));
        _changedOver = (long)(working.Intervals.Select(i => (From: Math.Max((long)(i.StartUtc - zero).TotalSeconds, _empty), To: (long)(i.EndUtc - zero).TotalSeconds))
            .First(i => i.From + equipment.Changeover.TotalSeconds <= i.To).From + equipment.Changeover.TotalSeconds);
    }

    public void Unload() => _held--;

    private long Offers(Job job) => _recipe is null ? 0 : job.RecipeId == _recipe ? Math.Max(_lastEntry, _nextEntry - job.Step.Load) : _changedOver;
}

/// <summary>A sheet on its way.</summary>
internal sealed class Job(int sheetId, int recipeId, long ready, Step[] steps)
{
    private int _at;

    public int SheetId => sheetId;

    public int RecipeId => recipeId;

    public Step[] Steps => steps;

    public Step Step => steps[_at];

    public bool Done => _at == steps.Length;

    public Phase Phase { get; private set; }

    /// <summary>Since when, or from when, it waits or is over.</summary>
    public long Since { get; private set; } = ready;

    /// <summary>Does it wait for somebody?</summary>
    public bool Asks => Phase is Phase.Waiting or Phase.Over;

    public long Planned => Phase == Phase.Waiting ? Step.PlannedStart : Step.PlannedUnload;

    public long Attended => Phase == Phase.Waiting ? Step.Load : Step.Unload;

    public void Begin(long now, WorkingTime working, DateTime zero)
    {
        if (Phase == Phase.Waiting)
        {
            Step.Machine.Load(this, now, working, zero);
            (Phase, Since) = (Phase.Loading, now + Step.Load);
        }
        else
        {
            (Phase, Since) = (Phase.Unloading, now + Step.Unload);
        }
    }

    /// <summary>From loading to running, from running to over, from unloading to the next stage; false when none of these.</summary>
    public bool MovesOn()
    {
        switch (Phase)
        {
            case Phase.Loading:
                (Phase, Since) = (Phase.Running, Since + Step.Run);
                return true;
            case Phase.Running:
                Phase = Phase.Over;
                return true;
            case Phase.Unloading:
                Step.Machine.Unload();
                Since += ++_at < steps.Length ? steps[_at - 1].WaitAfter : 0;
                Phase = Phase.Waiting;
                return true;
            default:
                return false;
        }
    }
}

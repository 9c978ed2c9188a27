namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>One way to do a stage, in seconds.</summary>
internal readonly record struct Way(int Machine, int Load, int Run, int Unload, int Spacing)
{
    public int Total => Load + Run + Unload;
}

/// <summary>A machine: its units are numbered through the whole shop. A line has one unit that is used for its downtime only.</summary>
internal readonly record struct ShopMachine(EquipmentKind Kind, int FirstUnit, int Units, int Changeover);

/// <summary>
/// A request as arrays of whole seconds from an origin before all that it knows, which is what the planners compute with. Jobs are the
/// request's sheets that still have stages, operations are their stages one after the other.
/// </summary>
internal sealed class Shop
{
    /// <summary>A longest wait up to this long is kept by placing the two stages together; a longer one only costs.</summary>
    public const int LinkedWait = 4 * 3600;

    public const int NoLimit = int.MaxValue;

    private readonly Dictionary<int, int> _machineOf = [];

    private Shop(Shop other)
    {
        (Request, Origin, Now, Machines, Units, Sheets, _machineOf) = (other.Request, other.Origin, other.Now, other.Machines, other.Units, other.Sheets, other._machineOf);
        (FirstOp, JobOf, FirstWay, MinWait, MaxWait, FrozenStart) = (other.FirstOp, other.JobOf, other.FirstWay, other.MinWait, other.MaxWait, other.FrozenStart);
        (Release, Working, Operators, Tickets, Down, DueBy) = (other.Release, other.Working, other.Operators, other.Tickets, other.Down, other.DueBy);
        (Ways, NotBefore, NotUnloadedBefore, Slot) = (other.Ways, other.NotBefore, other.NotUnloadedBefore, other.Slot);
    }

    public Shop(PlanRequest request)
    {
        PlanRequestCheck.Refuse(request);
        Request = request;
        Origin = Second(Earliest(request)).AddDays(-1);
        Now = Up(request.NowUtc);
        Machines = new ShopMachine[request.Equipment.Count];
        for (var m = 0; m < Machines.Length; m++)
        {
            var e = request.Equipment[m];
            _machineOf.Add(e.Id, m);
            Machines[m] = new(e.Kind, Units, e.Kind == EquipmentKind.Slots ? e.Slots : 1, Seconds(e.Changeover));
            Units += Machines[m].Units;
        }

        Sheets = [.. request.Sheets.Where(s => s.Stages.Count > 0)];
        FirstOp = new int[Sheets.Length + 1];
        for (var j = 0; j < Sheets.Length; j++)
        {
            FirstOp[j + 1] = FirstOp[j] + Sheets[j].Stages.Count;
        }

        var ops = FirstOp[^1];
        (JobOf, FirstWay, MinWait, MaxWait, FrozenStart) = (new int[ops], new int[ops + 1], new int[ops], new int[ops], new int?[ops]);
        (NotBefore, NotUnloadedBefore, Slot) = (new int[ops], new int[ops], new int[ops]);
        Array.Fill(Slot, -1);
        Ways = Read();
        Release = [.. Sheets.Select(s => Math.Max(Now, Up(s.ReadyUtc)))];
        Working = Calendar(request.Working);
        Operators = request.Operators?.Select(Calendar).ToArray();
        Tickets = ShopTickets.Of(request, Sheets, Up);
        Down = [.. request.Equipment.Select(e => request.Downtime.Where(d => d.EquipmentId == e.Id)
            .Select(d => (From: Floor(d.FromUtc), To: Up(d.ToUtc))).Where(d => d.To > Now).OrderBy(d => d.From).ToArray())];
        DueBy = [.. Sheets.SelectMany(s => Scheduling.DueBy.Ticks(s, request.Working.Set))];
    }

    public PlanRequest Request { get; }

    public DateTime Origin { get; }

    public int Now { get; }

    public PlanSheet[] Sheets { get; }

    public int Jobs => Sheets.Length;

    public int Ops => JobOf.Length;

    public int Units { get; }

    public ShopMachine[] Machines { get; }

    public int[] FirstOp { get; }

    public int[] JobOf { get; }

    public int[] FirstWay { get; }

    public Way[] Ways { get; private init; }

    public int[] MinWait { get; }

    /// <summary>Longest wait to the next operation; <see cref="NoLimit"/> without one.</summary>
    public int[] MaxWait { get; }

    public int?[] FrozenStart { get; }

    /// <summary>Earliest start of each operation, whatever else would let it begin; 0 for none.</summary>
    public int[] NotBefore { get; }

    /// <summary>Earliest begin of each operation's unloading; 0 for none.</summary>
    public int[] NotUnloadedBefore { get; private init; }

    /// <summary>The slot of its machine that an operation takes where it has the choice; -1 for any.</summary>
    public int[] Slot { get; }

    /// <summary>Earliest start of a job's first operation, not before now.</summary>
    public int[] Release { get; }

    public IntervalSet Working { get; }

    public IntervalSet[]? Operators { get; }

    public ShopTickets Tickets { get; }

    public (int From, int To)[][] Down { get; }

    /// <summary>Latest finish of each operation in UTC ticks.</summary>
    public long[] DueBy { get; }

    public bool Makespan => Request.Goal == PlanGoal.Makespan;

    /// <summary>The same shop with other times.</summary>
    public Shop With(Way[] ways, int[] notUnloadedBefore) => new(this) { Ways = ways, NotUnloadedBefore = notUnloadedBefore };

    /// <summary>Keeps an operation where a plan has it: it becomes later where it must, never sooner.</summary>
    public void Keep(int op, int start, int unload) => (NotBefore[op], NotUnloadedBefore[op]) = (start, unload);

    /// <summary>Keeps what another shop keeps, whose operations are the first of this one.</summary>
    public void KeepAs(Shop other)
    {
        other.NotBefore.CopyTo(NotBefore, 0);
        other.NotUnloadedBefore.CopyTo(NotUnloadedBefore, 0);
        other.Slot.CopyTo(Slot, 0);
    }

    public PlanStage StageOf(int op) => Sheets[JobOf[op]].Stages[op - FirstOp[JobOf[op]]];

    public int MachineOf(int equipmentId) => _machineOf[equipmentId];

    public bool IsLast(int op) => op + 1 == FirstOp[JobOf[op] + 1];

    /// <summary>Must the next operation be placed together with this one?</summary>
    public bool Linked(int op) => MaxWait[op] <= LinkedWait && !IsLast(op);

    public DateTime Instant(int seconds) => Origin.AddSeconds(seconds);

    /// <summary>Seconds from the origin, up to the next whole one.</summary>
    public int Up(DateTime utc) => Clamp((long)Math.Ceiling((utc - Origin).TotalSeconds));

    // Every instant that is computed with comes after it, so that no time is negative.
    private static DateTime Earliest(PlanRequest request)
    {
        var starts = request.Sheets.SelectMany(s => s.Stages).Where(t => t.Running is not null).Select(t => t.Running!.StartedUtc)
            .Concat(request.Working.Intervals.Take(1).Select(i => i.StartUtc));
        return starts.Append(request.NowUtc).Min();
    }

    private static DateTime Second(DateTime utc) => new(utc.Ticks - (utc.Ticks % TimeSpan.TicksPerSecond), DateTimeKind.Utc);

    private int Floor(DateTime utc) => Clamp((long)Math.Floor((utc - Origin).TotalSeconds));

    private static int Clamp(long seconds) => (int)Math.Clamp(seconds, -1_000_000_000, 1_000_000_000);

    private static int Seconds(TimeSpan span) => Clamp((long)Math.Ceiling(span.TotalSeconds));

    private IntervalSet Calendar(WorkingTime working) => new(
        [.. working.Intervals.Select(i => (long)Up(i.StartUtc))], [.. working.Intervals.Select(i => (long)Floor(i.EndUtc))]);

    private Way[] Read()
    {
        var ways = new List<Way>();
        for (var j = 0; j < Sheets.Length; j++)
        {
            for (var k = 0; k < Sheets[j].Stages.Count; k++)
            {
                var (op, stage) = (FirstOp[j] + k, Sheets[j].Stages[k]);
                JobOf[op] = j;
                MinWait[op] = Seconds(stage.LeastWaitAfter);
                MaxWait[op] = stage.LongestWaitAfter is { } longest ? Math.Max(MinWait[op], Seconds(longest)) : NoLimit;
                FrozenStart[op] = stage.Running is { } running ? Floor(running.StartedUtc) : null;
                foreach (var o in stage.Options.Where(o => stage.Running is null || o.EquipmentId == stage.Running.EquipmentId))
                {
                    ways.Add(new Way(_machineOf[o.EquipmentId], Seconds(o.Load), Seconds(o.Run), Seconds(o.Unload), Seconds(o.EntrySpacing)));
                }

                FirstWay[op + 1] = ways.Count;
            }
        }

        return [.. ways];
    }
}

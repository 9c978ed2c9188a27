namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>
/// A shop whose jobs all pass the same stages in the same order, each with equal units of its own, where everybody is always there and nothing
/// runs yet, that is to be done as soon as possible.
/// </summary>
internal sealed class FlowShop
{
    private FlowShop(int[][] durations, int[] units)
    {
        (Durations, Units) = (durations, units);
        Mean = Math.Max(1, durations.Average(d => d.Average()));
    }

    /// <summary>In seconds, by stage and job.</summary>
    public int[][] Durations { get; }

    /// <summary>Of each stage.</summary>
    public int[] Units { get; }

    public int Stages => Units.Length;

    public int Jobs => Durations[0].Length;

    /// <summary>Mean duration in seconds, at least 1.</summary>
    public double Mean { get; }

    /// <returns>Null for a shop that is none.</returns>
    public static FlowShop? Of(Shop shop, bool[] held)
    {
        var stages = shop.Jobs == 0 ? 0 : shop.FirstOp[1];
        if (stages < 2 || !IsPlain(shop, stages) || held.Contains(true))
        {
            return null;
        }

        int[] machines = [.. shop.Ways.Take(stages).Select(w => w.Machine)];
        if (machines.Distinct().Count() < stages
            || Enumerable.Range(0, shop.Ops).Any(op => shop.FirstOp[shop.JobOf[op]] != shop.JobOf[op] * stages || shop.Ways[op].Machine != machines[op % stages]))
        {
            return null;
        }

        return new FlowShop(
            [.. Enumerable.Range(0, stages).Select(s => Enumerable.Range(0, shop.Jobs).Select(j => shop.Ways[(j * stages) + s].Total).ToArray())],
            [.. machines.Select(m => shop.Machines[m].Units)]);
    }

    private static bool IsPlain(Shop shop, int stages) =>
        shop.Makespan && shop.Operators is null && shop.Ops == shop.Jobs * stages && shop.Ways.Length == shop.Ops
        && shop.Working.Count == 1 && shop.Working.Span(0).From <= shop.Now && shop.Working.Span(0).To - shop.Now > shop.Ways.Sum(w => (long)w.Total)
        && shop.Machines.All(m => m.Kind != EquipmentKind.Line) && shop.Down.All(d => d.Length == 0)
        && shop.Release.All(r => r == shop.Now) && shop.MinWait.All(w => w == 0) && shop.MaxWait.All(w => w == Shop.NoLimit)
        && shop.FrozenStart.All(s => s is null) && shop.NotBefore.All(t => t == 0) && shop.NotUnloadedBefore.All(t => t == 0) && shop.Slot.All(s => s < 0);
}

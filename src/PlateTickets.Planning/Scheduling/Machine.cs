namespace PlateTickets.Planning.Scheduling;

/// <summary>What a machine is booked with so far. Bookings are only added behind earlier ones, so what it offers only moves later.</summary>
internal abstract class Machine(IntervalSet working)
{
    protected IntervalSet Working { get; } = working;

    public static Machine Of(PlanEquipment equipment, IntervalSet working, long now) =>
        equipment.Kind == EquipmentKind.Line
            ? new LineMachine(working, now, equipment.Changeover.Ticks)
            : new SlotMachine(working, equipment.Kind == EquipmentKind.Slots ? equipment.Slots : 1);

    /// <summary>The earliest placement of work that may not start before <paramref name="ready"/>.</summary>
    public abstract Placement Earliest(in Work work, long ready);

    /// <summary>Books a placement that <see cref="Earliest"/> gave, or one that has begun already.</summary>
    public abstract void Book(in Work work, in Placement placement);

    protected Placement From(in Work work, long notBefore)
    {
        if (notBefore < 0)
        {
            return Placement.None;
        }

        var start = Working.EarliestStart(notBefore, work.Load);
        var unload = start < 0 ? -1 : Working.EarliestStart(start + work.Load + work.Run, work.Unload);
        return unload < 0 ? Placement.None : new Placement(start, unload + work.Unload);
    }
}

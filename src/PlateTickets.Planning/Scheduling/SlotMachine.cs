namespace PlateTickets.Planning.Scheduling;

/// <summary>A machine of one or several slots. A slot is taken from the start of loading to the end of unloading.</summary>
internal sealed class SlotMachine(IntervalSet working, int slots) : Machine(working)
{
    private readonly long[] _freeFrom = new long[slots];

    public override Placement Earliest(in Work work, long ready) => From(work, Math.Max(ready, _freeFrom[FirstFree()]));

    public override void Book(in Work work, in Placement placement)
    {
        // Of the slots free by then the one that was freed last: one that is free earlier may still serve an earlier sheet.
        // When none is, more sheets have been recorded in the machine than it has slots, and it is free once enough are out.
        var slot = FirstFree();
        for (var i = 0; i < _freeFrom.Length; i++)
        {
            slot = _freeFrom[i] <= placement.Start && _freeFrom[i] > _freeFrom[slot] ? i : slot;
        }

        _freeFrom[slot] = Math.Max(_freeFrom[slot], placement.Finish);
    }

    private int FirstFree()
    {
        var first = 0;
        for (var i = 1; i < _freeFrom.Length; i++)
        {
            first = _freeFrom[i] < _freeFrom[first] ? i : first;
        }

        return first;
    }
}

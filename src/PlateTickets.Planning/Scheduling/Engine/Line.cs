namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>
/// A line while a plan is made. A sheet enters when its run begins, directly after its loading. The next one of the same
/// recipe is loaded when the last one has entered, and enters after that one's spacing. Another recipe waits until all runs
/// are over and the attended changeover, done as soon as the line is empty, is finished. With nothing running the line is
/// taken as set up for whatever comes first, because nobody told the plan otherwise.
/// </summary>
internal struct Line
{
    private bool _used;
    private int _recipe;
    private int _lastEntry;
    private int _nextEntry;
    private int _emptyFrom;
    private int _changedOver;

    /// <summary>The operation that entered last; -1 before the first.</summary>
    public int LastOp { get; private set; }

    public int Changeovers { get; private set; }

    public static Line New => new() { LastOp = -1 };

    /// <summary>Earliest begin of the next sheet's loading, as far as the line alone decides; -1 when the calendar ends before.</summary>
    public readonly int Offers(int recipe, int load, int ready)
    {
        if (!_used)
        {
            return ready;
        }

        return recipe == _recipe ? Math.Max(ready, Math.Max(_lastEntry, _nextEntry - load))
            : _changedOver < 0 ? -1
            : Math.Max(ready, _changedOver);
    }

    public void Book(int op, int recipe, in Way way, int start, int now, int changeover, IntervalSet working)
    {
        var entry = start + way.Load;
        if (!_used || entry >= _lastEntry)
        {
            Changeovers += _used && recipe != _recipe ? 1 : 0;
            (_used, _recipe, _lastEntry, LastOp) = (true, recipe, entry, op);
        }

        _nextEntry = Math.Max(_nextEntry, entry + way.Spacing);
        _emptyFrom = Math.Max(_emptyFrom, entry + way.Run);
        var begin = (int)working.EarliestStart(Math.Max(now, _emptyFrom), changeover);
        _changedOver = begin < 0 ? -1 : begin + changeover;
    }
}

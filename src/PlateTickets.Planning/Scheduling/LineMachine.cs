namespace PlateTickets.Planning.Scheduling;

/// <summary>
/// A line. A sheet enters when its run begins, directly after its loading. The next one of the same recipe is loaded when
/// the last one has entered, and enters after that one's spacing. Another recipe waits until all runs are over and the
/// attended changeover, done as soon as the line is empty, is finished; then its first sheet is loaded.
/// Unloading is attended at the exit and does not hold up the entry. With nothing running the line is taken as set up
/// for whatever comes first, because nobody told the plan otherwise.
/// </summary>
internal sealed class LineMachine(IntervalSet working, long now, long changeover) : Machine(working)
{
    private bool _used;
    private int _recipeId;
    private long _lastEntry;
    private long _nextEntry;
    private long _emptyFrom;
    private long _changedOver;

    public override Placement Earliest(in Work work, long ready)
    {
        if (!_used)
        {
            return From(work, ready);
        }

        if (work.RecipeId == _recipeId)
        {
            return From(work, Math.Max(ready, Math.Max(_lastEntry, _nextEntry - work.Load)));
        }

        return _changedOver < 0 ? Placement.None : From(work, Math.Max(ready, _changedOver));
    }

    public override void Book(in Work work, in Placement placement)
    {
        var entry = placement.Start + work.Load;
        if (!_used || entry >= _lastEntry)
        {
            _used = true;
            _recipeId = work.RecipeId;
            _lastEntry = entry;
        }

        _nextEntry = Math.Max(_nextEntry, entry + work.EntrySpacing);
        _emptyFrom = Math.Max(_emptyFrom, entry + work.Run);
        var begin = Working.EarliestStart(Math.Max(now, _emptyFrom), changeover);
        _changedOver = begin < 0 ? -1 : begin + changeover;
    }
}

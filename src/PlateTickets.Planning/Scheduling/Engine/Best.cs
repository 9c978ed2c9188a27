namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>The best plan so far, which several threads look at and better. A plan that moves a held operation is not taken.</summary>
internal sealed class Best(Draft first, bool[] held)
{
    private readonly Lock _gate = new();
    private readonly Draft _first = first;
    private volatile Draft _now = first;

    public Draft Now => _now;

    /// <summary>True once no better main cost can exist.</summary>
    public bool Proved { get; private set; }

    /// <summary>No plan can have a main cost below this.</summary>
    public double Bound { get; private set; } = double.NegativeInfinity;

    public bool Offer(Draft draft)
    {
        lock (_gate)
        {
            if (!(draft.Cost < _now.Cost) || !Keeps(draft))
            {
                return false;
            }

            _now = draft;
            return true;
        }
    }

    public void Raise(double bound)
    {
        lock (_gate)
        {
            Bound = Math.Max(Bound, bound);
            Proved = Bound >= _now.Cost.Main - 1e-6;
        }
    }

    private bool Keeps(Draft draft)
    {
        for (var op = 0; op < held.Length; op++)
        {
            if (held[op] && (draft.Start[op] != _first.Start[op] || draft.Way[op] != _first.Way[op]))
            {
                return false;
            }
        }

        return true;
    }
}

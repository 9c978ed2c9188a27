namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>The best plan so far, which several threads look at and better.</summary>
internal sealed class Best(Draft first)
{
    private readonly Lock _gate = new();
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
            if (!(draft.Cost < _now.Cost))
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
}

using PlateTickets.Planning.Scheduling.Engine;

namespace PlateTickets.Planning.Scheduling.Lateness;

/// <summary>
/// The order in which a room works off a plan: the plan's own, except that an operation whose sheet is not there in time has
/// its turn when the sheet comes. If all takes as long as computed, that is exactly the plan.
/// </summary>
internal sealed class PlayedOrder
{
    private readonly Shop _shop;
    private readonly Draft _draft;
    private readonly int[] _rank;
    private readonly int[] _turn;

    public PlayedOrder(Shop shop, Draft draft)
    {
        (_shop, _draft, _rank, _turn) = (shop, draft, new int[shop.Ops], new int[shop.Ops]);
        var token = new int[shop.Jobs];
        var turn = 0;
        for (var i = 0; i < draft.Order.Length; i++)
        {
            var job = draft.Order[i];
            var op = shop.FirstOp[job] + token[job]++;
            // One that follows another at once is placed together with that, so it has no turn of its own.
            turn = op > shop.FirstOp[job] && shop.Linked(op - 1) ? turn : Math.Max(turn, draft.Start[op]);
            (_rank[op], _turn[op]) = (i, turn);
        }
    }

    /// <summary>Stops where the calendar ends: what is not placed then comes after it.</summary>
    /// <param name="placing">Of the same shop with the times of one run.</param>
    /// <param name="until">Stops also when this ticket is whole, since nothing that comes then moves it; -1 for none.</param>
    public void Build(Placing placing, int until = -1)
    {
        placing.Clear();
        var waiting = new PriorityQueue<int, (int Turn, int Rank)>(_shop.Jobs);
        for (var job = 0; job < _shop.Jobs; job++)
        {
            Enqueue(_shop.FirstOp[job]);
        }

        while (waiting.TryDequeue(out var op, out _))
        {
            var spot = placing.Table.Earliest(op, placing.Ready(op), _draft.Choice[op]);
            var last = spot.Fits ? placing.Place(op, spot, _draft.Choice) : -1;
            if (last < 0 || (until >= 0 && placing.IsWhole(until)))
            {
                return;
            }

            if (!_shop.IsLast(last))
            {
                Enqueue(last + 1);
            }
        }

        void Enqueue(int op)
        {
            while (placing.IsPlaced(op))
            {
                if (_shop.IsLast(op))
                {
                    return;
                }

                op++;
            }

            waiting.Enqueue(op, (Math.Max(_turn[op], placing.Ready(op)), _rank[op]));
        }
    }
}

namespace PlateTickets.Benchmarks.Ovens;

/// <summary>The first plan: each job in turn goes where it costs least, into a batch there is or a new one between two of them.</summary>
internal static class OvenFirst
{
    public static IReadOnlyList<OvenBatch> Build(OvenFile oven)
    {
        // Which order is best depends on whether due times or fill decide; both are cheap to try.
        var orders = new Comparison<int>[]
        {
            (a, b) => oven.Jobs[a].Due.CompareTo(oven.Jobs[b].Due),
            (a, b) => oven.Jobs[b].MinTime.CompareTo(oven.Jobs[a].MinTime),
        };
        return orders.Select(order => Insert(oven, order)).MinBy(s => s.Total)!.Read();
    }

    private static OvenState Insert(OvenFile oven, Comparison<int> order)
    {
        var state = new OvenState(oven);
        foreach (var job in Enumerable.Range(0, oven.Jobs.Length).Order(Comparer<int>.Create((a, b) => order(a, b) is var c && c != 0 ? c : a.CompareTo(b))))
        {
            var (best, into, machine, at) = (long.MaxValue, -1, -1, -1);
            foreach (var m in oven.Jobs[job].Machines)
            {
                for (var p = 0; p < state.Filled(m); p++)
                {
                    var batch = state.BatchAt(m, p);
                    if (state.JobFits(job, batch))
                    {
                        state.Put(job, batch);
                        var price = state.Price(best - 1);
                        state.Undo();
                        (best, into, machine, at) = price < best ? (price, batch, m, p) : (best, into, machine, at);
                    }
                }

                for (var p = 0; p <= state.Filled(m) && oven.Jobs[job].Size <= oven.Machines[m].Capacity; p++)
                {
                    var batch = state.NextBatch;
                    state.Open(batch, m, p);
                    state.Put(job, batch);
                    var price = state.Price(best - 1);
                    state.Undo();
                    (best, into, machine, at) = price < best ? (price, -1, m, p) : (best, into, machine, at);
                }
            }

            if (into < 0)
            {
                into = state.NextBatch;
                state.Open(into, machine, at);
            }

            state.Put(job, into);
            state.Price(long.MaxValue);
            state.Keep();
        }

        return state;
    }
}

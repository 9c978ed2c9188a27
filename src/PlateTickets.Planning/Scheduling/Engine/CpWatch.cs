using Google.OrTools.Sat;

namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>Takes each solution as it is found, places it, and stops the solver when the time is over.</summary>
internal sealed class CpWatch(Shop shop, CpShop model, Best best, Func<bool> over) : CpSolverSolutionCallback
{
    private readonly Placing _placing = new(shop);

    public override void OnSolutionCallback()
    {
        Offer(Value, BooleanValue);
        if (over())
        {
            StopSearch();
        }
    }

    public void Offer(Func<IntVar, long> value, Func<BoolVar, bool> truth)
    {
        var (order, choice) = model.Read(value, truth);
        if (_placing.Build(order, choice, double.MaxValue))
        {
            best.Offer(_placing.Finish(order, choice));
        }
    }
}

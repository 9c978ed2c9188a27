using PlateTickets.Planning.Scheduling;

namespace PlateTickets.Benchmarks;

/// <summary>
/// An invented room to which one thing after the other happens: whatever the plan has next begins, what runs is over a little
/// sooner or later than planned, now and then an order comes in or a machine goes down.
/// </summary>
internal sealed class RoomAtWork(PlanRequest request, int seed)
{
    private const int OrdersInHundred = 7, DownInHundred = 3;

    private readonly Random _random = new(seed);
    private readonly Dictionary<int, double> _share = [];
    private int _starts;
    private int _ends;
    private int _orders;
    private int _downs;

    public PlanRequest Request { get; private set; } = request;

    public string Told => $"{_starts} stages began, {_ends} were over, {_orders} orders came, machines went down {_downs} times";

    /// <summary>Was the last thing one that no plan foresees: an order, or a machine that went down?</summary>
    public bool Surprised { get; private set; }

    public void Next(Plan plan)
    {
        var what = _random.Next(100);
        Surprised = what < OrdersInHundred + DownInHundred;
        switch (what)
        {
            case < OrdersInHundred:
                Order();
                break;
            case < OrdersInHundred + DownInHundred:
                GoDown();
                break;
            default:
                GoOn(plan);
                break;
        }
    }

    private void Order()
    {
        _orders++;
        var id = Request.Tickets.Max(t => t.Id) + 1;
        var (ticket, sheets) = InventedRoom.Order(id, Request.Sheets.Max(s => s.Id) + 1, Request.NowUtc.AddMinutes(240 + _random.Next(6000)), 3, _random);
        Request = Request with
        {
            Tickets = [.. Request.Tickets, ticket],
            Sheets = [.. Request.Sheets, .. sheets.Select(s => s with { ReadyUtc = Request.NowUtc })],
        };
    }

    private void GoDown()
    {
        _downs++;
        var machine = Request.Equipment[_random.Next(Request.Equipment.Count)].Id;
        Request = Request with { Downtime = [.. Request.Downtime, new Downtime(machine, Request.NowUtc, Request.NowUtc.AddMinutes(30 + _random.Next(90)))] };
    }

    private void GoOn(Plan plan)
    {
        var at = plan.Stages.ToDictionary(s => s.StageId);
        var (next, when) = (-1, DateTime.MaxValue);
        for (var i = 0; i < Request.Sheets.Count; i++)
        {
            if (Request.Sheets[i].Stages is [var stage, ..] && When(stage, at[stage.Id]) is var t && t < when)
            {
                (next, when) = (i, t);
            }
        }

        var sheet = Request.Sheets[next];
        var first = sheet.Stages[0];
        when = when > Request.NowUtc ? when : Request.NowUtc;
        var begins = first.Running is null;
        (_starts, _ends) = (_starts + (begins ? 1 : 0), _ends + (begins ? 0 : 1));
        var sheets = Request.Sheets.ToArray();
        sheets[next] = begins
            ? sheet with { Stages = [first with { Running = new RunningStage(at[first.Id].EquipmentId, when) }, .. sheet.Stages.Skip(1)] }
            : sheet with { ReadyUtc = when + first.LeastWaitAfter, Stages = [.. sheet.Stages.Skip(1)] };
        Request = Request with { NowUtc = when, Sheets = sheets };
    }

    private DateTime When(PlanStage stage, PlannedStage planned)
    {
        if (stage.Running is null)
        {
            return planned.StartUtc;
        }

        if (!_share.TryGetValue(stage.Id, out var share))
        {
            _share[stage.Id] = share = 0.92 + (0.18 * _random.NextDouble());
        }

        var option = stage.Options.First(o => o.EquipmentId == planned.EquipmentId);
        return stage.Running.StartedUtc + (share * (option.Load + option.Run + option.Unload)) is var end && end > planned.FinishUtc - TimeSpan.FromMinutes(20) ? end : planned.FinishUtc;
    }
}

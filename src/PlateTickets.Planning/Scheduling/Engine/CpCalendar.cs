using Google.OrTools.Sat;
using Google.OrTools.Util;

namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>Attended work in a constraint model: inside working time, and never more at once than operators are there.</summary>
internal sealed class CpCalendar
{
    private readonly int _now;
    private readonly int _horizon;
    private readonly List<(long From, long To)> _open;
    private readonly IntervalSet[]? _operators;
    private readonly Dictionary<int, Domain> _domains = [];
    private readonly List<IntervalVar> _work = [];

    public CpCalendar(Shop shop, int horizon)
    {
        (_now, _horizon, _operators) = (shop.Now, horizon, shop.Operators);
        _open = Spans(shop.Working);
        Plain = _operators is null && _open.Count == 1 && _open[0].From <= _now && _open[0].To >= horizon;
    }

    /// <summary>Somebody is there all the time: nothing ever waits for people.</summary>
    public bool Plain { get; }

    public void Attend(CpModel model, IntVar start, int length, BoolVar? lit, string name)
    {
        if (length == 0)
        {
            return;
        }

        var inside = model.AddLinearExpressionInDomain(start, Starts(length));
        if (lit is not null)
        {
            inside.OnlyEnforceIf(lit);
        }

        if (_operators is not null)
        {
            _work.Add(lit is null ? model.NewFixedSizeIntervalVar(start, length, "a" + name) : model.NewOptionalFixedSizeIntervalVar(start, length, lit, "a" + name));
        }
    }

    /// <summary>The starts from which so many seconds of attended work fit.</summary>
    public Domain Starts(int length)
    {
        if (!_domains.TryGetValue(length, out var domain))
        {
            var spans = _operators is null ? _open : Fits(length);
            var bounds = spans.Where(s => s.To - s.From >= length && s.To > _now && s.From <= _horizon).SelectMany(s => new[] { s.From, s.To - length }).ToArray();
            _domains[length] = domain = Domain.FromFlatIntervals(bounds);
        }

        return domain;
    }

    /// <summary>States how many people there are, once all attended work is known.</summary>
    public void Close(CpModel model)
    {
        if (_operators is null)
        {
            return;
        }

        var cumulative = model.AddCumulative(_operators.Length);
        foreach (var work in _work)
        {
            cumulative.AddDemand(work, 1);
        }

        // Whoever is not there is busy elsewhere.
        foreach (var calendar in _operators)
        {
            var at = (long)_now;
            foreach (var (from, to) in Spans(calendar).Where(s => s.To > _now))
            {
                Away(model, cumulative, at, Math.Min(from, _horizon));
                at = to;
            }

            Away(model, cumulative, at, _horizon);
        }
    }

    private static void Away(CpModel model, CumulativeConstraint cumulative, long from, long to)
    {
        if (to > from)
        {
            cumulative.AddDemand(model.NewFixedSizeIntervalVar(model.NewConstant(from), to - from, $"n{from}"), 1);
        }
    }

    private List<(long From, long To)> Fits(int length)
    {
        _ = length;
        return [.. _operators!.SelectMany(Spans).OrderBy(s => s.From)];
    }

    private static List<(long From, long To)> Spans(IntervalSet set) => [.. Enumerable.Range(0, set.Count).Select(set.Span)];
}

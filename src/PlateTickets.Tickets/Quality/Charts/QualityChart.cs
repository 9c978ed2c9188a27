using PlateTickets.Process.Statistics;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Quality.Charts;

/// <summary>The values behind one plotted point: one, or those of a group.</summary>
public sealed record QualityGroup(IReadOnlyList<QualityValue> Values)
{
    /// <summary>When it was complete.</summary>
    public DateTime AtUtc => Values[^1].AtUtc;

    public DateTime FromUtc => Values[0].AtUtc;
}

/// <summary>A signal with the points that it is about, and what changed near it.</summary>
public sealed record QualitySignal(ControlRule Rule, QualityGroup First, QualityGroup At, IReadOnlyList<QualityChange> Changes);

/// <summary>A control chart of the room's own values.</summary>
/// <param name="Ask">What was asked.</param>
/// <param name="Groups">One for each plotted point, in the order of time.</param>
/// <param name="Control">Limits and points; null while there are too few values.</param>
/// <param name="Summary">Of all charted values; null without any.</param>
/// <param name="Limits">The limits that the newest value had by its recipe.</param>
/// <param name="SeveralLimits">Older values had other limits: capability is told against the newest ones.</param>
/// <param name="Capability">Null without limits or scatter.</param>
/// <param name="Signals">In the order of time.</param>
/// <param name="More">Older values of the period were left out.</param>
/// <param name="LeftOut">Values that are not in the chart: times of forgotten scans, and groups of one.</param>
public sealed record QualityChart(
    QualityAsk Ask, IReadOnlyList<QualityGroup> Groups, ControlChart? Control, Summary? Summary, (double? From, double? To) Limits, bool SeveralLimits, Capability? Capability,
    IReadOnlyList<QualitySignal> Signals, bool More, int LeftOut)
{
    /// <summary>Below that many points limits are a first guess (common practice: 20 to 25 samples).</summary>
    public const int EnoughPoints = 20;

    private const int Five = 5;

    public bool IsProvisional => Groups.Count < EnoughPoints;

    public static QualityChart Of(QualityAsk ask, QualityValues values, Room room)
    {
        var all = Group(ask.Grouping, values.Values, room);
        var groups = all.Where(g => ask.Grouping == QualityGrouping.Singles || g.Values.Count >= ControlFactors.Fewest).ToList();
        var charted = groups.SelectMany(g => g.Values).ToList();
        var control = groups.Count < 2 ? null
            : ask.Grouping == QualityGrouping.Singles ? ControlChart.OfIndividuals([.. charted.Select(v => v.Value)])
            : ControlChart.OfSamples([.. groups.Select(g => g.Values.Select(v => v.Value).ToList())]);
        var summary = charted.Count == 0 ? null : Summary.Of([.. charted.Select(v => v.Value)]);
        var limits = charted.Count == 0 ? default : (charted[^1].From, charted[^1].To);
        var changes = QualityChanges.Of(charted, values.Lamps, ask, room);
        return new(
            ask, groups, control, summary, limits, charted.Exists(v => (v.From, v.To) != limits),
            control is null ? null : Capability.Of(limits.Item1, limits.Item2, summary!.Mean, control.Sigma, summary.Deviation),
            [.. (control?.Signals ?? []).Select(s => SignalOf(s, groups, ask, changes)).OrderBy(s => s.At.AtUtc).ThenBy(s => s.Rule)],
            values.More, values.LeftOut + all.Sum(g => g.Values.Count) - charted.Count);
    }

    private static QualitySignal SignalOf(ControlSignal signal, List<QualityGroup> groups, QualityAsk ask, IReadOnlyList<QualityChange> changes)
    {
        // A moving range lies between two values: it is told at the second one.
        var shift = signal.Rule == ControlRule.SpreadOutside && ask.Grouping == QualityGrouping.Singles ? 1 : 0;
        var (first, at) = (groups[signal.From], groups[signal.At + shift]);
        return new(signal.Rule, first, at, QualityChanges.Near(changes, first.FromUtc, at.AtUtc));
    }

    private static List<QualityGroup> Group(QualityGrouping grouping, IReadOnlyList<QualityValue> values, Room room) => grouping switch
    {
        QualityGrouping.Singles => [.. values.Select(v => new QualityGroup([v]))],
        QualityGrouping.Fives => [.. values.Chunk(Five).Select(c => new QualityGroup(c))],
        _ => [.. values.GroupBy(v => room.ShiftAt(v.AtUtc)).SelectMany(s => s.Chunk(ControlFactors.Most)).Select(c => new QualityGroup(c))],
    };
}

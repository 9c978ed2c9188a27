using PlateTickets.Planning.Scheduling;

namespace PlateTickets.Tickets.Reports;

/// <summary>How much of a span lies in working time, in O(log n).</summary>
public sealed class WorkedTime
{
    private readonly List<DateTime> _starts;
    private readonly List<DateTime> _ends;
    private readonly List<TimeSpan> _before = [];

    public WorkedTime(WorkingTime working)
    {
        _starts = [.. working.Intervals.Select(i => i.StartUtc)];
        _ends = [.. working.Intervals.Select(i => i.EndUtc)];
        var sum = TimeSpan.Zero;
        foreach (var interval in working.Intervals)
        {
            _before.Add(sum);
            sum += interval.EndUtc - interval.StartUtc;
        }
    }

    /// <summary>Zero when the end lies before the start.</summary>
    public TimeSpan Between(DateTime fromUtc, DateTime toUtc) => toUtc <= fromUtc ? TimeSpan.Zero : Until(toUtc) - Until(fromUtc);

    private TimeSpan Until(DateTime utc)
    {
        var at = _starts.BinarySearch(utc);
        var i = at >= 0 ? at : ~at - 1;
        return i < 0 ? TimeSpan.Zero : _before[i] + ((utc < _ends[i] ? utc : _ends[i]) - _starts[i]);
    }
}

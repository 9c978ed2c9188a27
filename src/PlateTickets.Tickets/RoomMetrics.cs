using System.Diagnostics;
using System.Diagnostics.Metrics;
using PlateTickets.Tickets.Sites;

namespace PlateTickets.Tickets;

/// <summary>How long something took, over the last thousand times.</summary>
/// <param name="Count">How often since the program started.</param>
/// <param name="Last">The last one.</param>
public sealed record TookFigures(long Count, TimeSpan Median, TimeSpan NinetyFive, TimeSpan NinetyNine, TimeSpan Last);

/// <summary>What the program measures of itself while it works, for whoever collects it (OpenTelemetry) and for the administrator's page.</summary>
public sealed class RoomMetrics : IDisposable
{
    /// <summary>Name of the meter and of the source of traces.</summary>
    public const string Name = "PlateTickets";

    /// <summary>Where scans and plans begin a span of a trace.</summary>
    public static readonly ActivitySource Source = new(Name);

    private const string Seconds = "s";

    private readonly Histogram<double> _scans;
    private readonly Histogram<double> _plans;
    private readonly Counter<long> _deliveries;
    private readonly Recent _scanTimes = new();
    private readonly Recent _planTimes = new();

    public RoomMetrics(IMeterFactory? meters = null, SiteKey? site = null)
    {
        var name = NameAt(site ?? SiteKey.Alone);
        Meter = meters?.Create(name) ?? new Meter(name);
        // From a scan on an idle SSD to one that waits for a busy disk.
        _scans = Meter.CreateHistogram<double>(
            "plateroom.scan.duration", Seconds, "From the arrival of a scan until it is on disk and answered.",
            advice: new() { HistogramBucketBoundaries = [0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10] });
        _plans = Meter.CreateHistogram<double>(
            "plateroom.plan.duration", Seconds, "Reading the room, making the plan and writing it.",
            advice: new() { HistogramBucketBoundaries = [0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 30] });
        _deliveries = Meter.CreateCounter<long>("plateroom.deliveries", "{delivery}", "Tries to send a message to another program or a customer.");
    }

    public Meter Meter { get; }

    /// <summary>Name of the meter of a site: a program that serves several must not mix their figures.</summary>
    public static string NameAt(SiteKey site) => site.IsAlone ? Name : $"{Name}.{site}";

    public TookFigures? Scans => _scanTimes.Figures();

    public TookFigures? Plans => _planTimes.Figures();

    /// <summary>A scan was answered.</summary>
    /// <param name="since">Timestamp of <see cref="Stopwatch"/> when it arrived.</param>
    /// <param name="accepted">Did it change a sheet?</param>
    public void Scanned(long since, bool accepted)
    {
        var took = Stopwatch.GetElapsedTime(since);
        _scans.Record(took.TotalSeconds, new KeyValuePair<string, object?>("outcome", accepted ? "accepted" : "refused"));
        _scanTimes.Add(took);
    }

    /// <summary>A plan was made and written.</summary>
    /// <param name="since">Timestamp of <see cref="Stopwatch"/> when it was begun.</param>
    public void Planned(long since)
    {
        var took = Stopwatch.GetElapsedTime(since);
        _plans.Record(took.TotalSeconds);
        _planTimes.Add(took);
    }

    /// <summary>A message was tried to be sent.</summary>
    /// <param name="kind">webhook, mail, signal or return.</param>
    /// <param name="outcome">arrived, failed (it is tried again) or given up.</param>
    public void Sent(string kind, string outcome) => _deliveries.Add(1, new KeyValuePair<string, object?>("kind", kind), new KeyValuePair<string, object?>("outcome", outcome));

    public void Dispose() => Meter.Dispose();

    private sealed class Recent
    {
        private const int Kept = 1000;

        private readonly Lock _gate = new();
        private readonly TimeSpan[] _ring = new TimeSpan[Kept];
        private long _count;

        public void Add(TimeSpan took)
        {
            lock (_gate)
            {
                _ring[_count++ % Kept] = took;
            }
        }

        public TookFigures? Figures()
        {
            TimeSpan[] sorted;
            TimeSpan last;
            long count;
            lock (_gate)
            {
                if (_count == 0)
                {
                    return null;
                }

                (count, last) = (_count, _ring[(_count - 1) % Kept]);
                sorted = _ring[..(int)Math.Min(_count, Kept)];
            }

            Array.Sort(sorted);
            TimeSpan At(double share) => sorted[Math.Clamp((int)Math.Ceiling(share * sorted.Length) - 1, 0, sorted.Length - 1)];
            return new TookFigures(count, At(0.5), At(0.95), At(0.99), last);
        }
    }
}

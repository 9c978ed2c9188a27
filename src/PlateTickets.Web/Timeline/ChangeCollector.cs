namespace PlateTickets.Web.Timeline;

/// <summary>Collects the ids of changed sheets and hands them on together: never two at a time, and never sooner than a least time after the last.</summary>
internal sealed class ChangeCollector : IDisposable
{
    private readonly TimeProvider _clock;
    private readonly TimeSpan _least;
    private readonly Func<IReadOnlyCollection<int>, Task> _handOn;
    private readonly ITimer _timer;
    private readonly Lock _lock = new();
    private HashSet<int> _ids = [];
    private DateTimeOffset _last = DateTimeOffset.MinValue;
    private bool _underWay;
    private bool _disposed;

    public ChangeCollector(TimeProvider clock, TimeSpan least, Func<IReadOnlyCollection<int>, Task> handOn)
    {
        _clock = clock;
        _least = least;
        _handOn = handOn;
        _timer = clock.CreateTimer(_ => _ = HandOnAsync(), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
    }

    public void Add(IReadOnlyCollection<int> ids)
    {
        lock (_lock)
        {
            _ids.UnionWith(ids);
            if (_underWay || _disposed)
            {
                return;
            }

            _underWay = true;
        }

        Wait();
    }

    public void Dispose()
    {
        lock (_lock)
        {
            _disposed = true;
        }

        _timer.Dispose();
    }

    private void Wait()
    {
        var left = _last == DateTimeOffset.MinValue ? TimeSpan.Zero : _last + _least - _clock.GetUtcNow();
        _timer.Change(left > TimeSpan.Zero ? left : TimeSpan.Zero, Timeout.InfiniteTimeSpan);
    }

    private async Task HandOnAsync()
    {
        HashSet<int> ids;
        lock (_lock)
        {
            ids = _ids;
            _ids = [];
        }

        try
        {
            await _handOn(ids);
        }
        finally
        {
            bool more;
            lock (_lock)
            {
                _last = _clock.GetUtcNow();
                more = _ids.Count > 0 && !_disposed;
                _underWay = more;
            }

            if (more)
            {
                Wait();
            }
        }
    }
}

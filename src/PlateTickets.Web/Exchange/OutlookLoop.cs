using System.Threading.Channels;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Web.Startup.Nodes;

namespace PlateTickets.Web.Exchange;

/// <summary>Looks after each simulation of the plan, and every minute since time alone makes tickets late, whether something is to be told of a ticket.</summary>
internal sealed class OutlookLoop : BackgroundService
{
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(1);

    // Plans come in bursts: what a better one says a moment later is not told twice.
    private static readonly TimeSpan Settle = TimeSpan.FromSeconds(1);

    private static readonly Action<ILogger, Exception?> Failed =
        LoggerMessage.Define(LogLevel.Error, new EventId(1, nameof(Failed)), "What the plan says of the tickets could not be told; it is looked at again");

    private readonly Channel<bool> _studied = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });
    private readonly PlanBook _book;
    private readonly OutlookWatch _watch;
    private readonly PlannerSeat _seat;
    private readonly ILogger<OutlookLoop> _log;

    public OutlookLoop(PlanBook book, OutlookWatch watch, PlannerSeat seat, ILogger<OutlookLoop> log)
    {
        (_book, _watch, _seat, _log) = (book, watch, seat, log);
        _book.Studied += Wake;
    }

    public override void Dispose()
    {
        _book.Studied -= Wake;
        base.Dispose();
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (!stoppingToken.IsCancellationRequested)
        {
            using (var waiting = CancellationTokenSource.CreateLinkedTokenSource(stoppingToken))
            {
                waiting.CancelAfter(Longest);
                try
                {
                    await _studied.Reader.WaitToReadAsync(waiting.Token);
                }
                catch (OperationCanceledException) when (!stoppingToken.IsCancellationRequested)
                {
                    // Nothing was planned for a while: time has passed.
                }
            }

            await Task.Delay(Settle, stoppingToken);
            _studied.Reader.TryRead(out _);
            try
            {
                if (_seat.IsOurs)
                {
                    await _watch.LookAsync(stoppingToken);
                }
            }
            catch (Exception e) when (!stoppingToken.IsCancellationRequested)
            {
                Failed(_log, e);
            }
        }
    }

    private void Wake() => _studied.Writer.TryWrite(true);
}

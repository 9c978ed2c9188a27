using System.Diagnostics;
using System.Threading.Channels;
using Microsoft.Extensions.Options;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Web.Startup.Nodes;

namespace PlateTickets.Web.Startup;

/// <summary>Makes the plan anew after each event, and every minute since time alone makes sheets late. Events that come together share one plan. On a node that does not plan, it reads what the planning one wrote.</summary>
internal sealed class PlanLoop : BackgroundService
{
    // The board shows what happened before the plan takes the processor; a burst of events shares one plan.
    private static readonly TimeSpan Settle = TimeSpan.FromMilliseconds(250);

    // Where scans come without end, planning has a quarter of the time and they have the rest.
    private const int RestAfterPlan = 3;

    private static readonly Action<ILogger, Exception?> Failed =
        LoggerMessage.Define(LogLevel.Error, new EventId(1, nameof(Failed)), "The plan could not be made; the last one stays");

    private readonly Channel<bool> _wanted = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });
    private readonly PlanKeeper _plans;
    private readonly RoomEvents _events;
    private readonly PlannerSeat _seat;
    private readonly TimeSpan _every;
    private readonly ILogger<PlanLoop> _log;

    public PlanLoop(PlanKeeper plans, RoomEvents events, PlannerSeat seat, IOptions<PlateRoomOptions> options, ILogger<PlanLoop> log)
    {
        _plans = plans;
        _events = events;
        _seat = seat;
        _every = TimeSpan.FromSeconds(options.Value.PlanEverySeconds);
        _log = log;
        _events.PlanWanted += Ask;
        _seat.Won += Ask;
    }

    public override void Dispose()
    {
        _events.PlanWanted -= Ask;
        _seat.Won -= Ask;
        base.Dispose();
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        Ask();
        var (took, ended) = (TimeSpan.Zero, Stopwatch.GetTimestamp());
        while (!stoppingToken.IsCancellationRequested)
        {
            using (var waiting = CancellationTokenSource.CreateLinkedTokenSource(stoppingToken))
            {
                waiting.CancelAfter(_every);
                try
                {
                    await _wanted.Reader.WaitToReadAsync(waiting.Token);
                    var rest = (took * RestAfterPlan) - Stopwatch.GetElapsedTime(ended);
                    await Task.Delay(rest > Settle ? rest : Settle, stoppingToken);
                    _wanted.Reader.TryRead(out _);
                }
                catch (OperationCanceledException) when (!stoppingToken.IsCancellationRequested)
                {
                    // Nothing happened for a while: plan anyway, time has passed.
                }
            }

            var since = Stopwatch.GetTimestamp();
            try
            {
                await (_seat.IsOurs ? _plans.ReplanAsync(stoppingToken) : _plans.FollowAsync(stoppingToken));
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                Failed(_log, e);
            }

            (took, ended) = (Stopwatch.GetElapsedTime(since), Stopwatch.GetTimestamp());
        }
    }

    private void Ask() => _wanted.Writer.TryWrite(true);
}

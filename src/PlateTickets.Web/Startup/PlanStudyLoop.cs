using System.Threading.Channels;
using Microsoft.Extensions.Options;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Web.Startup.Nodes;

namespace PlateTickets.Web.Startup;

/// <summary>Simulates each new plan at once, then improves it in short turns until another one comes or nothing more is found.</summary>
internal sealed class PlanStudyLoop : BackgroundService
{
    private const int FruitlessTurns = 2;
    private const int MostSearchers = 2;
    private static readonly TimeSpan Turn = TimeSpan.FromSeconds(2);

    private static readonly Action<ILogger, Exception?> Failed =
        LoggerMessage.Define(LogLevel.Error, new EventId(1, nameof(Failed)), "The plan could not be simulated or improved; it stays as it is");

    private readonly Channel<bool> _new = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });
    private readonly PlanBook _book;
    private readonly PlanStudy _study;
    private readonly TimeSpan _longest;
    private readonly SpareCores _spare;
    private readonly PlannerSeat _seat;
    private readonly ILogger<PlanStudyLoop> _log;
    private readonly Lock _gate = new();
    private CancellationTokenSource? _searching;

    public PlanStudyLoop(PlanBook book, PlanStudy study, SpareCores spare, PlannerSeat seat, IOptions<PlateRoomOptions> options, ILogger<PlanStudyLoop> log)
    {
        (_book, _study, _spare, _seat, _log) = (book, study, spare, seat, log);
        _longest = TimeSpan.FromSeconds(options.Value.ImproveSeconds);
        _book.Changed += Wake;
    }

    public override void Dispose()
    {
        _book.Changed -= Wake;
        base.Dispose();
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        var seed = 0;
        while (await _new.Reader.WaitToReadAsync(stoppingToken))
        {
            _new.Reader.TryRead(out _);
            using var searching = CancellationTokenSource.CreateLinkedTokenSource(stoppingToken);
            Interrupt(by: searching);
            try
            {
                await _spare.RunAsync(cores => Task.FromResult(_study.Simulate(cores, stoppingToken)), stoppingToken);
                await ImproveAsync(++seed, searching.Token);
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                Failed(_log, e);
            }
            finally
            {
                Interrupt(by: null);
            }
        }
    }

    private void Interrupt(CancellationTokenSource? by)
    {
        lock (_gate)
        {
            _searching = by;
        }
    }

    private async Task ImproveAsync(int seed, CancellationToken cancel)
    {
        var fruitless = 0;
        for (var spent = TimeSpan.Zero; spent < _longest && _seat.IsOurs && fruitless < FruitlessTurns && !cancel.IsCancellationRequested; spent += Turn)
        {
            if (await _spare.RunAsync(cores => _study.ImproveAsync(Turn, Math.Min(cores, MostSearchers), seed, cancel), CancellationToken.None))
            {
                // Published: the loop is woken by it, simulates the better plan and goes on from there.
                return;
            }

            fruitless++;
        }
    }

    private void Wake()
    {
        _new.Writer.TryWrite(true);
        lock (_gate)
        {
            _searching?.Cancel();
        }
    }
}

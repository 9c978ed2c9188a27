using System.Diagnostics;
using System.Threading.Channels;
using PlateTickets.Tickets.Sheets.Planning;

namespace PlateTickets.Web.Startup;

/// <summary>Looks for what would help the late tickets once a plan was simulated, and then rests: pages and plan come first.</summary>
internal sealed class RemedyLoop : BackgroundService
{
    // A plan that follows within this time makes the answer old.
    private static readonly TimeSpan Settle = TimeSpan.FromSeconds(2);

    // For each second of looking so many of rest.
    private const int Rest = 9;

    private static readonly Action<ILogger, Exception?> Failed =
        LoggerMessage.Define(LogLevel.Error, new EventId(1, nameof(Failed)), "What would help the late tickets could not be found out; the last answers stay");

    private readonly Channel<bool> _studied = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });
    private readonly PlanBook _book;
    private readonly Remedies _remedies;
    private readonly SpareCores _spare;
    private readonly ILogger<RemedyLoop> _log;

    public RemedyLoop(PlanBook book, Remedies remedies, SpareCores spare, ILogger<RemedyLoop> log)
    {
        (_book, _remedies, _spare, _log) = (book, remedies, spare, log);
        _book.Studied += Wake;
    }

    public override void Dispose()
    {
        _book.Studied -= Wake;
        base.Dispose();
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (await _studied.Reader.WaitToReadAsync(stoppingToken))
        {
            await Task.Delay(Settle, stoppingToken);
            _studied.Reader.TryRead(out _);
            var took = TimeSpan.Zero;
            try
            {
                await _spare.RunAsync(
                    async _ =>
                    {
                        var watch = Stopwatch.StartNew();
                        await _remedies.LookAsync(stoppingToken);
                        took = watch.Elapsed;
                        return true;
                    },
                    stoppingToken);
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                Failed(_log, e);
            }

            await Task.Delay(took * Rest, stoppingToken);
        }
    }

    private void Wake() => _studied.Writer.TryWrite(true);
}

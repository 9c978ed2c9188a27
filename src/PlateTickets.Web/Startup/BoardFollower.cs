using PlateTickets.Tickets.Board;

namespace PlateTickets.Web.Startup;

/// <summary>Keeps the one board in memory up with the database.</summary>
internal sealed class BoardFollower(BoardState board, ILogger<BoardFollower> log) : BackgroundService
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);

    private static readonly Action<ILogger, Exception?> Stumbled =
        LoggerMessage.Define(LogLevel.Error, new EventId(1, nameof(Stumbled)), "The board could not be read; it is read again in a second");

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await board.FollowAsync(stoppingToken);
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                Stumbled(log, e);
                await Task.Delay(Pause, stoppingToken);
            }
        }
    }
}

using PlateTickets.Tickets.Board;

namespace PlateTickets.Web.Startup;

/// <summary>Keeps the one board in memory up with the database, and what is shown of it.</summary>
internal sealed class BoardFollower(BoardState board, ShiftBoard shown, ILogger<BoardFollower> log) : BackgroundService
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);

    private static readonly Action<ILogger, Exception?> Stumbled =
        LoggerMessage.Define(LogLevel.Error, new EventId(1, nameof(Stumbled)), "The board could not be read; it is read again in a second");

    protected override Task ExecuteAsync(CancellationToken stoppingToken) =>
        Task.WhenAll(KeepUpAsync(board.FollowAsync, stoppingToken), KeepUpAsync(shown.FollowAsync, stoppingToken));

    private async Task KeepUpAsync(Func<CancellationToken, Task> follow, CancellationToken stoppingToken)
    {
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await follow(stoppingToken);
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                Stumbled(log, e);
                await Task.Delay(Pause, stoppingToken);
            }
        }
    }
}

using PlateTickets.Process;

namespace PlateTickets.Web.Startup.Backups;

/// <summary>Makes a backup whenever the newest good one is too old; after a failure again an hour later.</summary>
internal sealed class BackupLoop(BackupDesk desk, TimeProvider clock, ILogger<BackupLoop> log) : BackgroundService
{
    public const string Who = "PlateTickets by schedule";
    private static readonly TimeSpan Look = TimeSpan.FromMinutes(1);

    private static readonly Action<ILogger, string, Exception?> Failed =
        LoggerMessage.Define<string>(LogLevel.Error, new EventId(1, nameof(Failed)), "The scheduled backup failed and is tried again in an hour: {Why}");

    private static readonly Action<ILogger, string, double, Exception?> Made =
        LoggerMessage.Define<string, double>(LogLevel.Information, new EventId(2, nameof(Made)), "Backup made and checked: {Folder}, {Seconds:0.0} s");

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        if (desk.Folder is null)
        {
            return;
        }

        using var timer = new PeriodicTimer(Look, clock);
        do
        {
            await LookAsync(stoppingToken);
        }
        while (await timer.WaitForNextTickAsync(stoppingToken));
    }

    private async Task LookAsync(CancellationToken cancel)
    {
        try
        {
            if (desk.NextUtc(desk.List()) > clock.GetUtcNow().UtcDateTime)
            {
                return;
            }

            var made = await desk.MakeAsync(null, Who, cancel);
            if (made.Checked.Whole)
            {
                Made(log, made.Folder, made.Took.TotalSeconds, null);
            }
            else
            {
                Failed(log, string.Join(" ", made.Checked.Faults), null);
            }
        }
        catch (Exception e) when (e is PlateRoomException or IOException or UnauthorizedAccessException)
        {
            Failed(log, e.Message, e);
        }
    }
}

using Microsoft.Extensions.Options;
using PlateTickets.Tickets.Orders.Arrivals;

namespace PlateTickets.Web.Startup;

/// <summary>Looks into the drop folder every second and takes complete files in. Without the setting it only finishes what was taken before.</summary>
internal sealed class DropFolderLoop(
    ArrivalDesk desk, IOptions<PlateRoomOptions> options, IWebHostEnvironment environment, TimeProvider clock, ILogger<DropFolderLoop> log) : BackgroundService
{
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan ClearEvery = TimeSpan.FromDays(1);

    private static readonly Action<ILogger, string, Exception?> Failed =
        LoggerMessage.Define<string>(LogLevel.Warning, new EventId(1, nameof(Failed)), "{What}; it is tried again");

    private static readonly Action<ILogger, int, long, int, Exception?> Cleared =
        LoggerMessage.Define<int, long, int>(LogLevel.Information, new EventId(2, nameof(Cleared)), "{Files} taken files of {Megabytes} MB were deleted: older than {Days} days, and nobody waits for them");

    private string? _told;

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await TryAsync("The files taken before could not be read", () => desk.GoOnAsync(stoppingToken));
        await ClearAsync(stoppingToken);
        var clearedAt = clock.GetUtcNow();
        if (options.Value.DropFolder.Length == 0)
        {
            return;
        }

        var folder = Path.GetFullPath(options.Value.DropFolder, environment.ContentRootPath);
        var watch = new DropWatch(folder, TimeSpan.FromSeconds(options.Value.DropSettleSeconds), clock);
        using var timer = new PeriodicTimer(Every);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            await TryAsync($"The drop folder {folder} could not be read", () => LookAsync(folder, watch, stoppingToken));
            if (clock.GetUtcNow() - clearedAt >= ClearEvery)
            {
                clearedAt = clock.GetUtcNow();
                await ClearAsync(stoppingToken);
            }
        }
    }

    private async Task ClearAsync(CancellationToken cancel)
    {
        if (options.Value.KeepTakenDays is > 0 and var days)
        {
            await TryAsync("The taken files could not be cleared", async () =>
            {
                if (await desk.ClearAsync(TimeSpan.FromDays(days), cancel) is { Files: > 0 } cleared)
                {
                    Cleared(log, cleared.Files, cleared.Bytes / 1_000_000, days, null);
                }
            });
        }
    }

    private async Task LookAsync(string folder, DropWatch watch, CancellationToken cancel)
    {
        Directory.CreateDirectory(folder);
        var taken = false;
        foreach (var file in watch.Complete())
        {
            await TryAsync($"{file} could not be taken", async () => taken |= await desk.TakeAsync(file, cancel));
        }

        if (taken)
        {
            await desk.DecideAsync(cancel);
        }
    }

    /// <summary>A folder that is away or a file that is held elsewhere is a matter of time; the same trouble is logged once.</summary>
    private async Task TryAsync(string what, Func<Task> action)
    {
        try
        {
            await action();
        }
        catch (Exception e) when (e is not OperationCanceledException)
        {
            if (_told != what)
            {
                _told = what;
                Failed(log, what, e);
            }
        }
    }
}

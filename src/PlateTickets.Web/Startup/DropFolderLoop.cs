using Microsoft.Extensions.Options;
using PlateTickets.Tickets.Orders.Arrivals;

namespace PlateTickets.Web.Startup;

/// <summary>Looks into the drop folder every second and takes complete files in. Without the setting it only finishes what was taken before.</summary>
internal sealed class DropFolderLoop(
    ArrivalDesk desk, IOptions<PlateRoomOptions> options, IWebHostEnvironment environment, TimeProvider clock, ILogger<DropFolderLoop> log) : BackgroundService
{
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(1);

    private static readonly Action<ILogger, string, Exception?> Failed =
        LoggerMessage.Define<string>(LogLevel.Warning, new EventId(1, nameof(Failed)), "{What}; it is tried again");

    private string? _told;

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await TryAsync("The files taken before could not be read", () => desk.GoOnAsync(stoppingToken));
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

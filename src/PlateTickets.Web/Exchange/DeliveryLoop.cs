using Microsoft.Extensions.Options;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Web.Startup.Nodes;

namespace PlateTickets.Web.Exchange;

/// <summary>Sends what is due, on the node that plans: so no message goes out twice because there are two nodes.</summary>
internal sealed class DeliveryLoop(
    DeliveryDesk desk, DeliveryBook book, DeliveryGauge gauge, PlannerSeat seat, IOptions<ExchangeOptions> options, ILogger<DeliveryLoop> log) : BackgroundService
{
    // Real time, also where a test holds the clock: dates come from it, turns do not.
    private static readonly TimeSpan Look = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan AfterTrouble = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan Count = TimeSpan.FromSeconds(15);
    private static readonly TimeSpan Tidy = TimeSpan.FromHours(6);

    private static readonly Action<ILogger, Exception?> Failed =
        LoggerMessage.Define(LogLevel.Error, new EventId(1, nameof(Failed)), "Messages could not be made or sent; they wait, and it is tried again");

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        var (counted, tidied) = (Environment.TickCount64 - (long)Count.TotalMilliseconds, Environment.TickCount64);
        while (!stoppingToken.IsCancellationRequested)
        {
            var wait = Look;
            try
            {
                if (seat.IsOurs)
                {
                    await desk.FanOutAsync(stoppingToken);
                    if (options.Value.Sends && await desk.SendDueAsync(stoppingToken) > 0)
                    {
                        wait = TimeSpan.Zero;
                    }

                    if (Environment.TickCount64 - tidied >= Tidy.TotalMilliseconds)
                    {
                        tidied = Environment.TickCount64;
                        await book.TidyAsync(stoppingToken);
                    }
                }

                if (Environment.TickCount64 - counted >= Count.TotalMilliseconds)
                {
                    counted = Environment.TickCount64;
                    gauge.Waiting = seat.IsOurs ? (await book.CountAsync(stoppingToken)).Waiting : null;
                }
            }
            catch (Exception e) when (!stoppingToken.IsCancellationRequested)
            {
                Failed(log, e);
                wait = AfterTrouble;
            }

            await Task.Delay(wait, stoppingToken);
        }
    }
}

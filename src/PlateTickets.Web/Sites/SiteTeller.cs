using System.Threading.Channels;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Sites;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Startup;
using PlateTickets.Web.Startup.Nodes;
using PlateTickets.Web.Startup.Telemetry;

namespace PlateTickets.Web.Sites;

/// <summary>
/// Tells the group how this site stands: one row, written by the node that plans it, soon after its board changed and at least every half minute. Who looks
/// at all sites reads one small table, however many they are.
/// </summary>
internal sealed class SiteTeller(
    SiteKey site, PlannerSeat seat, RoomGauges gauges, BoardState board, PlanBook book, RoomCatalog rooms, IDbContextFactory<PlateRoomDb> databases, IOptions<PlateRoomOptions> options,
    IServer server, IHostApplicationLifetime life, TimeProvider clock, ILogger<SiteTeller> log) : BackgroundService
{
    /// <summary>A site that has not told anything for this long is not at work.</summary>
    public static readonly TimeSpan Silent = TimeSpan.FromMinutes(2);

    private static readonly TimeSpan AtLeast = TimeSpan.FromSeconds(30);

    // Of many scans one row is enough.
    private static readonly TimeSpan AtMost = TimeSpan.FromSeconds(1);

    private static readonly Action<ILogger, string, Exception?> Untold =
        LoggerMessage.Define<string>(LogLevel.Warning, new EventId(1, nameof(Untold)), "The group could not be told how this site stands, and is told again: {Why}");

    private readonly Channel<bool> _wake = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        if (site.IsAlone)
        {
            return;
        }

        board.Changed += BoardChanged;
        book.Changed += Wake;
        seat.Won += Wake;
        using var timer = clock.CreateTimer(_ => Wake(), null, AtLeast, AtLeast);
        // The address is known only when the server listens.
        life.ApplicationStarted.Register(Wake);
        try
        {
            while (await _wake.Reader.WaitToReadAsync(stoppingToken))
            {
                _wake.Reader.TryRead(out _);
                if (seat.IsOurs && Address() is { } address)
                {
                    await TellAsync(address, stoppingToken);
                }

                await Task.Delay(AtMost, stoppingToken);
            }
        }
        finally
        {
            board.Changed -= BoardChanged;
            book.Changed -= Wake;
            seat.Won -= Wake;
        }
    }

    private void BoardChanged(IReadOnlyCollection<int> ids) => Wake();

    private void Wake() => _wake.Writer.TryWrite(true);

    private string? Address() => options.Value.Address is { Length: > 0 } said ? said : server.Features.Get<IServerAddressesFeature>()?.Addresses.FirstOrDefault();

    private async Task TellAsync(string address, CancellationToken cancel)
    {
        try
        {
            var now = clock.GetUtcNow().UtcDateTime;
            var figures = gauges.Now();
            var room = await rooms.GetAsync(cancel);
            await using var db = await databases.CreateDbContextAsync(cancel);
            var told = await db.SiteStandings.SingleOrDefaultAsync(s => s.Site == site.Value, cancel);
            if (told is null)
            {
                db.SiteStandings.Add(told = new SiteStanding { Site = site.Value, Name = room.Site.Name, Address = address });
            }

            (told.Name, told.Address, told.ToldUtc) = (room.Site.Name, address.TrimEnd('/'), now);
            (told.OpenSheets, told.OpenTickets, told.Late, told.AtRisk) = (board.Now.Sheets.Values.Count(s => s.IsOpen), figures.Open, figures.Late, figures.AtRisk);
            told.Down = room.Downtimes.Where(d => d.FromUtc <= now && d.ToUtc > now).Select(d => d.EquipmentId).Distinct().Count();
            told.LastFinishUtc = board.Now.Sheets.Values.Where(s => s.IsOpen).Max(s => s.PlannedDoneUtc);
            told.PlannedUtc = figures.PlanAge is { } age ? now - age : null;
            await db.SaveChangesAsync(cancel);
        }
        catch (Exception e) when (e is not OperationCanceledException)
        {
            // Whatever it is, the site itself goes on.
            Untold(log, e.Message, null);
            Wake();
        }
    }
}

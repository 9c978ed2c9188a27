using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Sites;

namespace PlateTickets.Web.Sites;

/// <summary>How all sites of the group stand, read once for all who look.</summary>
internal sealed class GroupStandings(IDbContextFactory<PlateRoomDb> databases)
{
    private static readonly TimeSpan GoodFor = TimeSpan.FromSeconds(2);

    private readonly SemaphoreSlim _reading = new(1);
    private IReadOnlyList<SiteStanding> _sites = [];
    private long _readAt;
    private bool _read;

    /// <summary>By name; at most two seconds old.</summary>
    public async Task<IReadOnlyList<SiteStanding>> ReadAsync(CancellationToken cancel = default)
    {
        await _reading.WaitAsync(cancel);
        try
        {
            if (!_read || System.Diagnostics.Stopwatch.GetElapsedTime(_readAt) > GoodFor)
            {
                await using var db = await databases.CreateDbContextAsync(cancel);
                _sites = await db.SiteStandings.AsNoTracking().OrderBy(s => s.Name).ThenBy(s => s.Site).Take(10_000).ToListAsync(cancel);
                (_read, _readAt) = (true, System.Diagnostics.Stopwatch.GetTimestamp());
            }

            return _sites;
        }
        finally
        {
            _reading.Release();
        }
    }
}

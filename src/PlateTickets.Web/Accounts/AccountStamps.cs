using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Accounts;

/// <summary>Which sessions are still good, read once for all circuits.</summary>
internal sealed class AccountStamps : IDisposable
{
    private static readonly TimeSpan GoodFor = TimeSpan.FromSeconds(20);

    private readonly IDbContextFactory<PlateRoomDb> _databases;
    private readonly AccountDesk _desk;
    private readonly SemaphoreSlim _reading = new(1);
    private Dictionary<int, string> _stamps = [];
    private long _readAt;
    private bool _known;

    public AccountStamps(IDbContextFactory<PlateRoomDb> databases, AccountDesk desk)
    {
        _databases = databases;
        _desk = desk;
        _desk.Changed += Forget;
        _desk.AllChanged += ForgetAll;
    }

    /// <summary>Is this account active, and the stamp of the session its newest?</summary>
    public async Task<bool> IsGoodAsync(int id, string stamp, CancellationToken cancel)
    {
        await _reading.WaitAsync(cancel);
        try
        {
            if (!_known || Stopwatch.GetElapsedTime(_readAt) > GoodFor)
            {
                _known = true;
                await using var db = await _databases.CreateDbContextAsync(cancel);
                _stamps = await db.Users.AsNoTracking().Where(a => a.IsActive).ToDictionaryAsync(a => a.Id, a => a.SecurityStamp ?? "", cancel);
                _readAt = Stopwatch.GetTimestamp();
            }

            return _stamps.GetValueOrDefault(id) == stamp;
        }
        finally
        {
            _reading.Release();
        }
    }

    // The semaphore stays: a page may still ask while the program stops, and without a wait handle there is nothing to free.
    public void Dispose()
    {
        _desk.Changed -= Forget;
        _desk.AllChanged -= ForgetAll;
    }

    private void Forget(int id) => ForgetAll();

    private void ForgetAll() => _known = false;
}

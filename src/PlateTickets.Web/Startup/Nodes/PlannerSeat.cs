using Npgsql;
using PlateTickets.Tickets.Database;

namespace PlateTickets.Web.Startup.Nodes;

/// <summary>
/// Which node plans. Each asks for one advisory lock of the database; who has it plans until its session ends, and then the next one has it within
/// seconds. A room of one node has the seat for itself.
/// </summary>
public sealed class PlannerSeat(RoomDatabase database, ILogger<PlannerSeat> log) : BackgroundService
{
    // Any number that is the same on all nodes.
    private const long Lock = 0x706C6174_65730003;

    private static readonly TimeSpan Look = TimeSpan.FromSeconds(2);

    private static readonly Action<ILogger, Exception?> Taken =
        LoggerMessage.Define(LogLevel.Information, new EventId(1, nameof(Taken)), "This node makes the plan now");

    private static readonly Action<ILogger, string, Exception?> Lost =
        LoggerMessage.Define<string>(LogLevel.Warning, new EventId(2, nameof(Lost)), "This node cannot ask who makes the plan, and makes none until it can: {Why}");

    private volatile bool _ours = !database.IsPostgreSql;
    private bool _told;

    /// <summary>Told when this node begins to plan.</summary>
    public event Action? Won;

    public bool IsOurs => _ours;

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (database.IsPostgreSql && !stoppingToken.IsCancellationRequested)
        {
            try
            {
                await using var connection = await database.OpenAloneAsync(stoppingToken);
                await KeepAsync(connection, stoppingToken);
            }
            catch (Exception e) when (e is NpgsqlException or TimeoutException)
            {
                _ours = false;
                if (!_told)
                {
                    Lost(log, e.Message, null);
                    _told = true;
                }

                await Task.Delay(Look, stoppingToken);
            }
        }
    }

    // As long as this session lives it keeps the lock; asking again shows that it does.
    private async Task KeepAsync(NpgsqlConnection connection, CancellationToken cancel)
    {
        await using var take = new NpgsqlCommand($"SELECT pg_try_advisory_lock({SiteLocks.Of(Lock)})", connection) { CommandTimeout = 5 };
        await using var alive = new NpgsqlCommand("SELECT 1", connection) { CommandTimeout = 5 };
        while (true)
        {
            if (_ours)
            {
                await alive.ExecuteScalarAsync(cancel);
            }
            else if (await take.ExecuteScalarAsync(cancel) is true)
            {
                (_ours, _told) = (true, false);
                Taken(log, null);
                Won?.Invoke();
            }

            await Task.Delay(Look, cancel);
        }
    }
}

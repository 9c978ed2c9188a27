using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Accounts;

/// <summary>Shows the code for the first manager in the log, where nobody can sign in yet.</summary>
internal sealed class SetUpNotice(RoomCatalog rooms, AccountDesk accounts, SetUpCode code, ILogger<SetUpNotice> log) : IHostedService
{
    private static readonly Action<ILogger, string, string, Exception?> NobodyYet = LoggerMessage.Define<string, string>(
        LogLevel.Warning, new EventId(2, nameof(NobodyYet)), "Nobody has an account yet. Open {Page} and type the set-up code {Code}");

    public async Task StartAsync(CancellationToken cancellationToken)
    {
        if (!(await rooms.GetAsync(cancellationToken)).Site.IsDemo && !await accounts.AnyAsync(cancellationToken))
        {
            NobodyYet(log, Urls.SetUp, code.Make(), null);
        }
    }

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
}

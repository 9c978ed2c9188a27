using System.Text.Json;
using System.Threading.Channels;
using Npgsql;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Orders.Arrivals;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Sites;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Startup.Nodes;

/// <summary>
/// Carries what one node committed to all others, by the database's own LISTEN and NOTIFY. What was told while a node could not hear is made good when
/// it hears again: then it reads everything anew.
/// </summary>
internal sealed class NodeWire : BackgroundService
{
    private const string Name = "plate_room";

    // Notifications go through the whole database: each site has a channel, and news of people goes to all sites.
    private const string PeopleName = $"{Name}_{SiteKey.People}";

    // A notification holds less than 8000 bytes (PostgreSQL manual, NOTIFY).
    private const int IdsAtOnce = 600;

    private static readonly TimeSpan Again = TimeSpan.FromSeconds(1);

    // A line that broke without a word is noticed this soon.
    private static readonly TimeSpan Silence = TimeSpan.FromSeconds(5);

    private static readonly Action<ILogger, string, Exception?> Broke =
        LoggerMessage.Define<string>(LogLevel.Warning, new EventId(1, nameof(Broke)), "The line to the other nodes broke and is opened again: {Why}");

    private static readonly Action<ILogger, string, Exception?> Unsent =
        LoggerMessage.Define<string>(LogLevel.Warning, new EventId(2, nameof(Unsent)), "The other nodes could not be told of a change and are told again: {Why}");

    // What is raised here on behalf of another node is not sent out again.
    [ThreadStatic]
    private static bool _hearing;

    private readonly string _me = Guid.NewGuid().ToString("N");
    private readonly Channel<News> _out = Channel.CreateUnbounded<News>(new UnboundedChannelOptions { SingleReader = true });
    private readonly string _channel;
    private readonly string _peopleChannel;
    private readonly RoomDatabase _database;
    private readonly RoomEvents _events;
    private readonly RoomCatalog _rooms;
    private readonly PlanBook _book;
    private readonly PlannerSeat _seat;
    private readonly AccountDesk _accounts;
    private readonly ArrivalDesk _arrivals;
    private readonly DocumentDesk _documents;
    private readonly BoardState _board;
    private readonly ILogger<NodeWire> _log;

    public NodeWire(
        RoomDatabase database, RoomEvents events, RoomCatalog rooms, PlanBook book, PlannerSeat seat, AccountDesk accounts, ArrivalDesk arrivals, DocumentDesk documents, BoardState board, SiteKey site, ILogger<NodeWire> log)
    {
        (_channel, _peopleChannel) = site.IsAlone ? (Name, Name) : ($"{Name}_{site}", PeopleName);
        (_database, _events, _rooms, _book, _seat) = (database, events, rooms, book, seat);
        (_accounts, _arrivals, _documents, _board, _log) = (accounts, arrivals, documents, board, log);
        if (database.IsPostgreSql)
        {
            _events.Changed += SheetsChanged;
            _events.PlanWanted += PlanWanted;
            _rooms.Forgotten += RoomChanged;
            _book.Changed += Planned;
            _accounts.Changed += AccountChanged;
            _arrivals.Changed += FilesArrived;
            _documents.Changed += DocumentsChanged;
        }
    }

    private enum Kind
    {
        Sheets,
        PlanWanted,
        Room,
        Account,
        Arrivals,
        Documents,
    }

    public override void Dispose()
    {
        _events.Changed -= SheetsChanged;
        _events.PlanWanted -= PlanWanted;
        _rooms.Forgotten -= RoomChanged;
        _book.Changed -= Planned;
        _accounts.Changed -= AccountChanged;
        _arrivals.Changed -= FilesArrived;
        _documents.Changed -= DocumentsChanged;
        base.Dispose();
    }

    protected override Task ExecuteAsync(CancellationToken stoppingToken) =>
        _database.IsPostgreSql ? Task.WhenAll(ListenAsync(stoppingToken), SendAsync(stoppingToken)) : Task.CompletedTask;

    private void SheetsChanged(SheetsChanged change)
    {
        foreach (var ids in change.SheetIds.Chunk(IdsAtOnce))
        {
            Tell(Kind.Sheets, ids);
        }
    }

    private void PlanWanted() => Tell(Kind.PlanWanted);

    private void RoomChanged() => Tell(Kind.Room);

    private void AccountChanged(int id) => Tell(Kind.Account, id);

    private void FilesArrived() => Tell(Kind.Arrivals);

    private void DocumentsChanged() => Tell(Kind.Documents);

    // Only a plan that was made here is news; the others carry it over.
    private void Planned()
    {
        if (_seat.IsOurs)
        {
            Tell(Kind.PlanWanted);
        }
    }

    private void Tell(Kind kind, params int[] ids)
    {
        if (!_hearing)
        {
            _out.Writer.TryWrite(new News(_me, kind, ids));
        }
    }

    private async Task SendAsync(CancellationToken cancel)
    {
        NpgsqlConnection? connection = null;
        try
        {
            await foreach (var news in _out.Reader.ReadAllAsync(cancel))
            {
                for (var sent = false; !sent;)
                {
                    try
                    {
                        connection ??= await _database.OpenAloneAsync(cancel);
                        await using var notify = new NpgsqlCommand("SELECT pg_notify($1, $2)", connection)
                        {
                            CommandTimeout = 5,
                            Parameters = { new() { Value = news.Kind == Kind.Account ? _peopleChannel : _channel }, new() { Value = JsonSerializer.Serialize(news) } },
                        };
                        await notify.ExecuteNonQueryAsync(cancel);
                        sent = true;
                    }
                    catch (Exception e) when (e is NpgsqlException or TimeoutException)
                    {
                        Unsent(_log, e.Message, null);
                        if (connection is not null)
                        {
                            await connection.DisposeAsync();
                            connection = null;
                        }

                        await Task.Delay(Again, cancel);
                    }
                }
            }
        }
        finally
        {
            if (connection is not null)
            {
                await connection.DisposeAsync();
            }
        }
    }

    private async Task ListenAsync(CancellationToken cancel)
    {
        while (!cancel.IsCancellationRequested)
        {
            try
            {
                await using var connection = await _database.OpenAloneAsync(cancel);
                connection.Notification += (_, told) => Hear(told.Payload);
                await using (var listen = new NpgsqlCommand($"LISTEN {_channel}; LISTEN {_peopleChannel}", connection))
                {
                    await listen.ExecuteNonQueryAsync(cancel);
                }

                CatchUp();
                await using var alive = new NpgsqlCommand("SELECT 1", connection) { CommandTimeout = 5 };
                while (true)
                {
                    if (!await connection.WaitAsync(Silence, cancel))
                    {
                        await alive.ExecuteScalarAsync(cancel);
                    }
                }
            }
            catch (Exception e) when (e is NpgsqlException or TimeoutException)
            {
                Broke(_log, e.Message, null);
                await Task.Delay(Again, cancel);
            }
        }
    }

    // What happened before this line was open, or while it was broken, nobody can tell.
    private void CatchUp() => Raise(() =>
    {
        _rooms.Forget();
        _arrivals.TellChanged();
        _documents.TellChanged();
        _accounts.TellAllChanged();
        _board.AskForReload();
        _events.AskForPlan();
    });

    private void Hear(string payload)
    {
        if (JsonSerializer.Deserialize<News>(payload) is not { } news || news.From == _me)
        {
            return;
        }

        Raise(() =>
        {
            switch (news.Kind)
            {
                case Kind.Sheets:
                    _events.TellChanged(news.Ids);
                    break;
                case Kind.PlanWanted:
                    _events.AskForPlan();
                    break;
                case Kind.Room:
                    _rooms.Forget();
                    break;
                case Kind.Account:
                    _accounts.TellChanged(news.Ids[0]);
                    break;
                case Kind.Arrivals:
                    _arrivals.TellChanged();
                    break;
                case Kind.Documents:
                    _documents.TellChanged();
                    break;
            }
        });
    }

    private static void Raise(Action tell)
    {
        _hearing = true;
        try
        {
            tell();
        }
        finally
        {
            _hearing = false;
        }
    }

    private sealed record News(string From, Kind Kind, int[] Ids);
}

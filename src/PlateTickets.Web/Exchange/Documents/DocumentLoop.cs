using System.Threading.Channels;
using PlateTickets.Tickets.Exchange.Documents;

namespace PlateTickets.Web.Exchange.Documents;

/// <summary>Reads the files of documents one after the other, and at the start goes on with what a stopped server left.</summary>
internal sealed class DocumentLoop : BackgroundService
{
    private static readonly Action<ILogger, string, Exception?> Failed =
        LoggerMessage.Define<string>(LogLevel.Error, new EventId(1, nameof(Failed)), "{What} failed; it is done again at the next start");

    private readonly Channel<int> _waiting = Channel.CreateUnbounded<int>(new UnboundedChannelOptions { SingleReader = true });
    private readonly DocumentDesk _desk;
    private readonly DocumentShelf _shelf;
    private readonly ILogger<DocumentLoop> _log;

    public DocumentLoop(DocumentDesk desk, DocumentShelf shelf, ILogger<DocumentLoop> log)
    {
        (_desk, _shelf, _log) = (desk, shelf, log);
        _desk.FilesWait += Add;
    }

    public override void Dispose()
    {
        _desk.FilesWait -= Add;
        base.Dispose();
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await TryAsync("Going on with documents", async () =>
        {
            await _desk.ForgetUnusedAsync([.. _shelf.All()], stoppingToken);
            foreach (var id in await _desk.GoOnAsync(stoppingToken))
            {
                Add(id);
            }
        });
        await foreach (var id in _waiting.Reader.ReadAllAsync(stoppingToken))
        {
            await TryAsync($"Reading the files of document {id}", () => _desk.GiveFilesAsync(id, stoppingToken));
        }
    }

    private void Add(int id) => _waiting.Writer.TryWrite(id);

    private async Task TryAsync(string what, Func<Task> work)
    {
        try
        {
            await work();
        }
        catch (Exception e) when (e is not OperationCanceledException)
        {
            Failed(_log, what, e);
        }
    }
}

using System.Globalization;
using System.Xml.Linq;
using Microsoft.Extensions.Options;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Exchange.Messages;
using PlateTickets.Tickets.Exchange.Xjdf;
using PlateTickets.Tickets.Orders.Arrivals;

namespace PlateTickets.Web.Exchange.Documents;

/// <summary>
/// Takes documents and packages from a folder: what was taken goes to done/, what was refused to rejected/ with the reason in a file beside it. The answer is there
/// before the file moves: a server that stops in between takes it again, and the same document again is no second order.
/// </summary>
internal sealed class DocumentFolderLoop(
    DocumentDoorway doorway, IOptions<DocumentOptions> options, IWebHostEnvironment environment, TimeProvider clock, ILogger<DocumentFolderLoop> log) : BackgroundService
{
    public const string Done = "done";
    public const string Rejected = "rejected";

    private const string Sender = "Document folder";

    private static readonly TimeSpan Every = TimeSpan.FromSeconds(1);

    private static readonly Action<ILogger, string, Exception?> Failed =
        LoggerMessage.Define<string>(LogLevel.Warning, new EventId(1, nameof(Failed)), "{What}; it is tried again");

    private string? _told;

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        if (options.Value.DropFolder.Length == 0)
        {
            return;
        }

        var folder = Path.GetFullPath(options.Value.DropFolder, environment.ContentRootPath);
        var watch = new DropWatch(folder, TimeSpan.FromSeconds(options.Value.SettleSeconds), clock);
        using var timer = new PeriodicTimer(Every);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            await TryAsync($"The document folder {folder} could not be read", () => LookAsync(folder, watch, stoppingToken));
        }
    }

    private async Task LookAsync(string folder, DropWatch watch, CancellationToken cancel)
    {
        Directory.CreateDirectory(Path.Combine(folder, Done));
        Directory.CreateDirectory(Path.Combine(folder, Rejected));
        foreach (var file in watch.Complete())
        {
            await TryAsync($"{file} could not be taken", () => TakeAsync(folder, file, cancel));
        }
    }

    private async Task TakeAsync(string folder, string file, CancellationToken cancel)
    {
        XElement answer;
        await using (var body = File.OpenRead(file))
        {
            var caller = new XjmfCaller(Sender, DocumentDoor.Folder, Path.GetFileName(file), MayEnter: true, MayChangePlan: false);
            answer = XDocument.Parse(System.Text.Encoding.UTF8.GetString(await doorway.AnswerAsync(body, caller, null, cancel))).Root!;
        }

        var codes = answer.Elements().Where(e => e.Attribute("ReturnCode") is not null).Select(e => e.Attribute("ReturnCode")!.Value).ToList();
        var refused = codes.Exists(c => c != "0");
        var into = Free(Path.Combine(folder, refused ? Rejected : Done), Path.GetFileName(file));
        if (refused)
        {
            var said = answer.Descendants(XjdfNames.Ns + "Comment").Select(c => c.Value).DefaultIfEmpty("It was refused without a word.");
            await File.WriteAllTextAsync($"{into}.reason.txt", $"{Path.GetFileName(file)} was not taken.{Environment.NewLine}{string.Join(Environment.NewLine, said)}{Environment.NewLine}Return code {string.Join(", ", codes)}.{Environment.NewLine}", cancel);
        }

        File.Move(file, into);
    }

    // The same name twice keeps both.
    private string Free(string folder, string name)
    {
        var path = Path.Combine(folder, name);
        return File.Exists(path) ? Path.Combine(folder, $"{Path.GetFileNameWithoutExtension(name)}-{clock.GetUtcNow().ToString("yyyyMMdd-HHmmss-fff", CultureInfo.InvariantCulture)}{Path.GetExtension(name)}") : path;
    }

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

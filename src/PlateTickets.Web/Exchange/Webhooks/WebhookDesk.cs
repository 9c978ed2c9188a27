using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Exchange.Sending;

namespace PlateTickets.Web.Exchange.Webhooks;

/// <summary>Makes, pauses, tests and removes webhooks.</summary>
public sealed class WebhookDesk
{
    /// <summary>Webhooks that a room may have at a time.</summary>
    public const int Most = 50;

    public const int LongestName = 80;
    public const int LongestUrl = 2000;

    private readonly IDbContextFactory<PlateRoomDb> _databases;
    private readonly OutgoingHttp _http;
    private readonly ISecretKeeper _secrets;
    private readonly WebhookPost _post;
    private readonly TimeProvider _clock;

    public WebhookDesk(IDbContextFactory<PlateRoomDb> databases, OutgoingHttp http, ISecretKeeper secrets, TimeProvider clock)
    {
        (_databases, _http, _secrets, _clock) = (databases, http, secrets, clock);
        _post = new WebhookPost(http, secrets, clock);
    }

    /// <summary>Those that were not removed, by name; at most <see cref="Most"/>.</summary>
    public async Task<IReadOnlyList<Webhook>> ListAsync(CancellationToken cancel = default)
    {
        await using var db = await _databases.CreateDbContextAsync(cancel);
        return await db.Webhooks.AsNoTracking().Where(w => w.RemovedUtc == null).OrderBy(w => w.Name).ThenBy(w => w.Id).Take(Most).ToListAsync(cancel);
    }

    /// <summary>Makes a webhook and returns its secret: the only time that it can be read.</summary>
    /// <exception cref="PlateRoomException">Name, address or kinds are missing or wrong, or there are too many.</exception>
    public async Task<string> MakeAsync(string name, string url, IReadOnlyCollection<TicketEventKind> kinds, string by, CancellationToken cancel = default)
    {
        (name, url) = (name.Trim(), url.Trim());
        if (name.Length is 0 or > LongestName)
        {
            throw new PlateRoomException($"Give the webhook a name of 1 to {LongestName} characters: which program is told?");
        }

        if (url.Length > LongestUrl)
        {
            throw new PlateRoomException($"The address is longer than {LongestUrl} characters.");
        }

        if (_http.Refusal(url) is { } refused)
        {
            throw new PlateRoomException(refused);
        }

        var chosen = TicketCloudEvent.Kinds.Select(k => k.Kind).Where(kinds.Contains).ToList();
        if (chosen.Count == 0)
        {
            throw new PlateRoomException("Tick at least one thing of which the program is told.");
        }

        await using var db = await _databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        await using var transaction = await db.BeginWriteAsync(cancel);
        if (await db.Webhooks.CountAsync(w => w.RemovedUtc == null, cancel) >= Most)
        {
            throw new PlateRoomException($"There are {Most} webhooks: remove one that is not used any more.");
        }

        var secret = StandardSignature.NewSecret();
        db.Webhooks.Add(new Webhook
        {
            Name = name,
            Url = url,
            Secret = _secrets.Protect(secret),
            Kinds = string.Join(' ', chosen),
            MadeUtc = _clock.GetUtcNow().UtcDateTime,
            MadeBy = by,
        });
        await db.SaveChangesAsync(cancel);
        await transaction.CommitAsync(cancel);
        return secret;
    }

    /// <summary>Another secret takes the old one's place at once; it is returned, the only time that it can be read.</summary>
    /// <exception cref="PlateRoomException">There is no such webhook any more.</exception>
    public async Task<string> NewSecretAsync(int id, string by, CancellationToken cancel = default)
    {
        var secret = StandardSignature.NewSecret();
        await ChangeAsync(id, w => w.Secret = _secrets.Protect(secret), by, cancel);
        return secret;
    }

    /// <exception cref="PlateRoomException">There is no such webhook any more.</exception>
    public Task PauseAsync(int id, string by, CancellationToken cancel = default) => ChangeAsync(id, w => w.PausedBecause = $"Paused by {by}.", by, cancel);

    /// <exception cref="PlateRoomException">There is no such webhook any more.</exception>
    public Task GoOnAsync(int id, string by, CancellationToken cancel = default) => ChangeAsync(id, w => w.PausedBecause = "", by, cancel);

    /// <exception cref="PlateRoomException">There is no such webhook any more.</exception>
    public Task RemoveAsync(int id, string by, CancellationToken cancel = default) => ChangeAsync(id, w => w.RemovedUtc = _clock.GetUtcNow().UtcDateTime, by, cancel);

    /// <summary>Sends one signed message that tells of nothing, at once and once.</summary>
    /// <exception cref="PlateRoomException">There is no such webhook any more.</exception>
    public async Task<HttpAnswer> TestAsync(int id, string by, CancellationToken cancel = default)
    {
        await using var db = await _databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        var webhook = await FindAsync(db, id, cancel);
        var test = $"test-{Guid.NewGuid():N}";
        var answer = await _post.SendAsync(webhook, $"msg_{test}", TicketCloudEvent.Test($"evt-{test}", _clock.GetUtcNow()), cancel);
        db.Note(nameof(Webhook), webhook.AuditKey, "sent a test to", answer.Sentence);
        await db.SaveChangesAsync(cancel);
        return answer;
    }

    private async Task ChangeAsync(int id, Action<Webhook> change, string by, CancellationToken cancel)
    {
        await using var db = await _databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        change(await FindAsync(db, id, cancel));
        await db.SaveChangesAsync(cancel);
    }

    private static async Task<Webhook> FindAsync(PlateRoomDb db, int id, CancellationToken cancel) =>
        await db.Webhooks.SingleOrDefaultAsync(w => w.Id == id && w.RemovedUtc == null, cancel) ?? throw new PlateRoomException("There is no such webhook any more.");
}

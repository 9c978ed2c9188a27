using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Stations;

/// <summary>A reading as it comes from a station page, a tablet that was offline, or the API.</summary>
/// <param name="Id">Made where it was read; the same id twice is one scan.</param>
/// <param name="Code">What the scanner typed.</param>
/// <param name="EquipmentSlug">The machine it was read at.</param>
/// <param name="Action">Next, start or finish.</param>
/// <param name="By">Who scanned.</param>
/// <param name="ReadUtc">When it was read; null for now.</param>
/// <param name="Confirmed">A person confirms that the time is not over.</param>
public sealed record ScanRequest(
    Guid Id, string Code, string EquipmentSlug, ScanAction Action, string By, DateTime? ReadUtc = null, bool Confirmed = false)
{
    /// <summary>When it was sent, by the same clock as <see cref="ReadUtc"/>: the reading is then as old as that clock says, whatever the clock shows.</summary>
    public DateTime? SentUtc { get; init; }

    /// <summary>The sheet that was read before it: whose drawer or lot it is.</summary>
    public string Of { get; init; } = "";

    /// <summary>The points of the check list that were ticked.</summary>
    public CheckPoint Ticked { get; init; }

    /// <summary>Read without a connection: nobody could be shown the check list.</summary>
    public bool Offline { get; init; }
}

/// <summary>What came of it.</summary>
/// <param name="Repeated">The id was known: this is the answer that was given the first time.</param>
public sealed record ScanReply(Guid Id, ScanOutcome Outcome, string Sentence, string? SheetNumber, int? SheetId, bool Repeated)
{
    public bool Accepted => Outcome < ScanOutcome.Misread;

    /// <summary>By how many seconds the reader's clock is behind ours; below zero when it runs ahead.</summary>
    public int ClockBehindSeconds { get; init; }
}

/// <summary>
/// Records scans: append-only, idempotent, with the sheet's projection in the same transaction. Scans that come while the room's one writer is at work are
/// read, decided and committed together, in the order in which they came.
/// </summary>
public sealed class ScanDesk
{
    /// <summary>Longest that a reader's clock may run ahead of ours.</summary>
    public static readonly TimeSpan ClockTolerance = TimeSpan.FromMinutes(2);

    /// <summary>A second reading of a traveler within this time of a start by hand is the first one again.</summary>
    public static readonly TimeSpan TwiceWithin = TimeSpan.FromSeconds(20);

    // From here on a reader's clock counts as wrong.
    private static readonly TimeSpan ClockNoise = TimeSpan.FromSeconds(5);

    private readonly IDbContextFactory<PlateRoomDb> _databases;
    private readonly RoomCatalog _rooms;
    private readonly RoomEvents _events;
    private readonly TimeProvider _clock;
    private readonly RoomMetrics? _metrics;
    private readonly ScanTurns _turns;

    public ScanDesk(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, RoomEvents events, TimeProvider clock, RoomMetrics? metrics = null)
    {
        (_databases, _rooms, _events, _clock, _metrics) = (databases, rooms, events, clock, metrics);
        _turns = new ScanTurns(RecordAsync);
    }

    /// <summary>Records a reading. When this returns, the scan is on disk.</summary>
    /// <exception cref="KeyNotFoundException">There is no such machine.</exception>
    public async Task<ScanReply> RecordAsync(ScanRequest request, CancellationToken cancel = default)
    {
        var since = Stopwatch.GetTimestamp();
        using var span = RoomMetrics.Source.StartActivity("scan");
        var room = await _rooms.GetAsync(cancel);
        var equipment = room.EquipmentBySlug(request.EquipmentSlug)
            ?? throw new KeyNotFoundException($"This room has no equipment “{request.EquipmentSlug}”.");
        var (read, behind) = Corrected(request, _clock.GetUtcNow().UtcDateTime);
        var reply = await _turns.WaitAsync(new WaitingScan(request with { ReadUtc = read }, room, equipment, behind, cancel));
        _metrics?.Scanned(since, reply.Accepted);
        return reply;
    }

    private async Task RecordAsync(Func<IReadOnlyList<WaitingScan>> take)
    {
        using var span = RoomMetrics.Source.StartActivity("scan turn");
        await using var db = await _databases.CreateDbContextAsync();
        // Serializable takes SQLite's write lock at once: nobody changes a sheet between reading and deciding.
        await using var transaction = await db.BeginWriteAsync();
        var scans = take();
        if (scans.Count == 0)
        {
            return;
        }

        span?.SetTag("scans", scans.Count);
        (db.ActingAs, db.Clock) = (scans[0].Request.By, _clock);
        var replies = await DecideAsync(db, scans);
        await db.SaveChangesAsync();
        await transaction.CommitAsync();
        var recorded = replies.Where(r => !r.Repeated).ToList();
        _events.TellChanged([.. recorded.Where(r => r.Accepted || r.Outcome == ScanOutcome.OtherLot).Select(r => r.SheetId!.Value).Distinct()]);
        if (recorded.Exists(r => r.Outcome is ScanOutcome.Started or ScanOutcome.Finished))
        {
            _events.AskForPlan();
        }

        foreach (var (scan, reply) in scans.Zip(replies))
        {
            scan.Answer(reply);
        }
    }

    /// <summary>Decides on the scans of a turn one after the other, and puts them into the context.</summary>
    private async Task<List<ScanReply>> DecideAsync(PlateRoomDb db, IReadOnlyList<WaitingScan> scans)
    {
        Guid[] ids = [.. scans.Select(s => s.Request.Id)];
        var known = await db.Scans.AsNoTracking().Where(s => ids.Contains(s.Id)).ToDictionaryAsync(s => s.Id);
        var facts = await ScanFacts.ReadAsync(db, [.. scans.Where(s => !known.ContainsKey(s.Request.Id)).Select(s => s.SheetNumber).OfType<string>()], scans.Select(s => s.Equipment.Id), CancellationToken.None);
        var replies = new List<ScanReply>(scans.Count);
        foreach (var scan in scans)
        {
            replies.Add(known.TryGetValue(scan.Request.Id, out var earlier) ? await AgainAsync(db, earlier, scan.BehindSeconds) : await DecideAsync(db, facts, scan));
        }

        return replies;
    }

    private static async Task<ScanReply> AgainAsync(PlateRoomDb db, Scan known, int behind)
    {
        var number = await db.Sheets.Where(s => s.Id == known.SheetId).Select(s => s.Number).SingleOrDefaultAsync();
        return new ScanReply(known.Id, known.Outcome, known.Sentence, number, known.SheetId, Repeated: true) { ClockBehindSeconds = behind };
    }

    private async Task<ScanReply> DecideAsync(PlateRoomDb db, ScanFacts facts, WaitingScan scan)
    {
        var (request, read) = (scan.Request, scan.Read);
        var now = _clock.GetUtcNow().UtcDateTime;
        var sheet = scan.SheetNumber is { } sheetNumber ? facts.Sheet(sheetNumber) : null;
        var verdict = await new ScanRules(new ScanContext(db, facts, scan.Room, scan.Equipment, request, now)).DecideAsync(read, sheet, CancellationToken.None);
        db.Scans.Add(new Scan
        {
            Id = request.Id,
            Code = read.Cleaned,
            SheetId = read.Kind == NumberKind.Sheet || verdict.Station is not null ? sheet?.Id : null,
            EquipmentId = scan.Equipment.Id,
            Station = verdict.Station,
            Action = request.Action,
            Confirmed = request.Confirmed,
            Of = scan.Of,
            Ticked = request.Ticked,
            Offline = request.Offline,
            ClockBehindSeconds = scan.BehindSeconds,
            By = request.By,
            ReadUtc = request.ReadUtc ?? now,
            ReceivedUtc = now,
            Outcome = verdict.Outcome,
            Sentence = verdict.Sentence,
        });
        return new ScanReply(request.Id, verdict.Outcome, verdict.Sentence, sheet?.Number, sheet?.Id, Repeated: false) { ClockBehindSeconds = scan.BehindSeconds };
    }

    /// <summary>
    /// The reading is as much older than its sending as the reader's own clock says; the sending was just now. Without a time of
    /// sending the reader's clock is taken as it is.
    /// </summary>
    private static (DateTime? Read, int BehindSeconds) Corrected(ScanRequest request, DateTime nowUtc)
    {
        if (request.SentUtc is not { } sent)
        {
            return (request.ReadUtc, 0);
        }

        var behind = nowUtc - sent;
        if (behind.Duration() < ClockNoise)
        {
            // The way to us takes its time too. A clock that is right keeps the readings of a sheet in their order.
            return (request.ReadUtc < nowUtc ? request.ReadUtc : nowUtc, 0);
        }

        var read = request.ReadUtc is { } at && at < sent ? nowUtc - (sent - at) : nowUtc;
        return (read, (int)Math.Clamp(behind.TotalSeconds, int.MinValue, int.MaxValue));
    }
}

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

/// <summary>Records scans: append-only, idempotent, with the sheet's projection in the same transaction.</summary>
public sealed class ScanDesk(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, RoomEvents events, TimeProvider clock, RoomMetrics? metrics = null)
{
    /// <summary>Longest that a reader's clock may run ahead of ours.</summary>
    public static readonly TimeSpan ClockTolerance = TimeSpan.FromMinutes(2);

    /// <summary>A second reading of a traveler within this time of a start by hand is the first one again.</summary>
    public static readonly TimeSpan TwiceWithin = TimeSpan.FromSeconds(20);

    private const int Attempts = 5;

    // From here on a reader's clock counts as wrong.
    private static readonly TimeSpan ClockNoise = TimeSpan.FromSeconds(5);

    /// <summary>Records a reading. When this returns, the scan is on disk.</summary>
    /// <exception cref="KeyNotFoundException">There is no such machine.</exception>
    public async Task<ScanReply> RecordAsync(ScanRequest request, CancellationToken cancel = default)
    {
        var since = Stopwatch.GetTimestamp();
        using var span = RoomMetrics.Source.StartActivity("scan");
        var reply = await DecideAsync(request, cancel);
        metrics?.Scanned(since, reply.Accepted);
        return reply;
    }

    private async Task<ScanReply> DecideAsync(ScanRequest request, CancellationToken cancel)
    {
        var room = await rooms.GetAsync(cancel);
        var equipment = room.EquipmentBySlug(request.EquipmentSlug)
            ?? throw new KeyNotFoundException($"This room has no equipment “{request.EquipmentSlug}”.");
        var (read, behind) = Corrected(request, clock.GetUtcNow().UtcDateTime);
        request = request with { ReadUtc = read };
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                return await RecordOnceAsync(request, room, equipment, behind, cancel);
            }
            catch (DbUpdateException e) when (attempt < Attempts && DatabaseFault.Of(e) is null)
            {
                // Another scan or a new plan was faster, or the same id came twice at once: look again at what is there now.
            }
        }
    }

    private async Task<ScanReply> RecordOnceAsync(ScanRequest request, Room room, Equipment equipment, int behind, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        (db.ActingAs, db.Clock) = (request.By, clock);
        // Serializable takes SQLite's write lock at once: nobody changes the sheet between reading and deciding.
        await using var transaction = await db.BeginWriteAsync(cancel);
        if (await db.Scans.AsNoTracking().SingleOrDefaultAsync(s => s.Id == request.Id, cancel) is { } known)
        {
            var number = await db.Sheets.Where(s => s.Id == known.SheetId).Select(s => s.Number).SingleOrDefaultAsync(cancel);
            return new ScanReply(known.Id, known.Outcome, known.Sentence, number, known.SheetId, Repeated: true) { ClockBehindSeconds = behind };
        }

        var now = clock.GetUtcNow().UtcDateTime;
        var read = TrackingNumber.Read(request.Code);
        var of = TrackingNumber.Read(request.Of) is { Kind: NumberKind.Sheet } before ? before.Number! : "";
        var sheet = read.Kind == NumberKind.Sheet ? await SheetAsync(db, read.Number!, cancel)
            : of.Length > 0 && read.Kind != NumberKind.Ticket && read.Fault is NumberFault.None or NumberFault.NotANumber ? await SheetAsync(db, of, cancel)
            : null;
        var verdict = await new ScanRules(new ScanContext(db, room, equipment, request, now)).DecideAsync(read, sheet, cancel);
        db.Scans.Add(new Scan
        {
            Id = request.Id,
            Code = read.Cleaned,
            SheetId = read.Kind == NumberKind.Sheet || verdict.Station is not null ? sheet?.Id : null,
            EquipmentId = equipment.Id,
            Station = verdict.Station,
            Action = request.Action,
            Confirmed = request.Confirmed,
            Of = of,
            Ticked = request.Ticked,
            Offline = request.Offline,
            ClockBehindSeconds = behind,
            By = request.By,
            ReadUtc = request.ReadUtc ?? now,
            ReceivedUtc = now,
            Outcome = verdict.Outcome,
            Sentence = verdict.Sentence,
        });
        await db.SaveChangesAsync(cancel);
        await transaction.CommitAsync(cancel);
        var reply = new ScanReply(request.Id, verdict.Outcome, verdict.Sentence, sheet?.Number, sheet?.Id, Repeated: false) { ClockBehindSeconds = behind };
        if (reply.Accepted || reply.Outcome == ScanOutcome.OtherLot)
        {
            events.TellChanged([sheet!.Id]);
        }

        if (reply.Outcome is ScanOutcome.Started or ScanOutcome.Finished)
        {
            events.AskForPlan();
        }

        return reply;
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

    private static Task<Sheet?> SheetAsync(PlateRoomDb db, string number, CancellationToken cancel) =>
        db.Sheets.Include(s => s.Stages).SingleOrDefaultAsync(s => s.Number == number, cancel);
}

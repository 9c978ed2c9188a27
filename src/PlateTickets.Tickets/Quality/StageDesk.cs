using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Quality;

/// <summary>What people decide about a sheet besides scanning it: hold, go on, skip and repeat a stage.</summary>
public sealed class StageDesk(IDbContextFactory<PlateRoomDb> databases, RoomEvents events, TimeProvider clock)
{
    /// <summary>Sets a sheet aside; what runs is finished where it is. A sheet that is on hold gets the new reason.</summary>
    /// <exception cref="PlateRoomException">Without a reason, or there is nothing left to hold.</exception>
    public async Task HoldAsync(string number, string reason, string by, CancellationToken cancel = default)
    {
        Needed(reason, "Say why the sheet is put on hold: whoever finds it will ask.");
        await using var db = await OpenAsync(by, cancel);
        var sheet = await FindAsync(db, number, cancel);
        Open(sheet);
        (sheet.State, sheet.HoldReason) = (SheetState.OnHold, reason.Trim());
        await ReadingDesk.DecideAllAsync(db, sheet.Id, ReadingState.OnHold, reason.Trim(), by, clock.GetUtcNow().UtcDateTime, cancel);
        await SaveAsync(db, cancel);
        Tell(sheet);
    }

    /// <summary>A sheet on hold goes on where it was. What was out of limits when it was put on hold is asked again.</summary>
    /// <exception cref="PlateRoomException">It is not on hold.</exception>
    public async Task ReleaseAsync(string number, string by, CancellationToken cancel = default)
    {
        await using var db = await OpenAsync(by, cancel);
        var sheet = await FindAsync(db, number, cancel);
        if (sheet.State != SheetState.OnHold)
        {
            throw new PlateRoomException($"Sheet {TrackingNumber.ForPeople(number)} is not on hold any more.");
        }

        await GoOnFromHoldAsync(db, sheet, cancel);
        await SaveAsync(db, cancel);
        Tell(sheet);
    }

    /// <summary>Passes over the sheet's next stage.</summary>
    /// <returns>What was done, in a sentence.</returns>
    /// <exception cref="PlateRoomException">Without a reason, while the stage runs, or when it is the last one.</exception>
    public async Task<string> SkipAsync(string number, string reason, string by, CancellationToken cancel = default)
    {
        Needed(reason, "Say why the stage is skipped: whoever finds the plate on press will ask.");
        await using var db = await OpenAsync(by, cancel);
        var sheet = await FindAsync(db, number, cancel);
        Open(sheet);
        var (next, after) = sheet.Stages.Where(s => s.State != StageState.Done).OrderBy(s => s.Station).ToList() is [var first, .. var rest] ? (first, rest.FirstOrDefault()) : (null, null);
        if (next is null || after is null)
        {
            throw new PlateRoomException("The last stage cannot be skipped: with it the sheet is done. Start and finish it, or have the sheet made again.");
        }

        if (next.State == StageState.Running)
        {
            throw new PlateRoomException($"{next.Station.Title()} of sheet {TrackingNumber.ForPeople(number)} runs: finish it there first.");
        }

        var now = clock.GetUtcNow().UtcDateTime;
        (next.State, next.StartedUtc, next.FinishedUtc, next.FinishedBy) = (StageState.Done, now, now, by);
        (next.SkippedBecause, next.RestAfterSeconds) = (reason.Trim(), 0);
        sheet.CurrentStation = after.Station;
        db.StageDecisions.Add(Decision(sheet, next.Station, StageDecisionKind.Skip, reason, by, now));
        await SaveAsync(db, cancel);
        Tell(sheet);
        return $"{next.Station.Title()} of sheet {TrackingNumber.ForPeople(number)} is skipped. Next is {after.Station.Title().ToLowerInvariant()}.";
    }

    /// <summary>A stage that was done is done again, and so is what was done after it.</summary>
    /// <returns>What was done, in a sentence.</returns>
    /// <exception cref="PlateRoomException">Without a reason, while a stage runs, or when it was not done yet.</exception>
    public async Task<string> RepeatAsync(string number, Station station, string reason, string by, CancellationToken cancel = default)
    {
        Needed(reason, "Say why the stage is repeated: the next one will learn from it.");
        await using var db = await OpenAsync(by, cancel);
        var sheet = await FindAsync(db, number, cancel);
        Open(sheet);
        if (sheet.Stages.Find(s => s.State == StageState.Running) is { } running)
        {
            throw new PlateRoomException($"{running.Station.Title()} of sheet {TrackingNumber.ForPeople(number)} runs: finish it there first.");
        }

        var again = sheet.Stages.Where(s => s.State == StageState.Done && s.Station >= station).OrderBy(s => s.Station).ToList();
        if (again.Count == 0 || again[0].Station != station)
        {
            throw new PlateRoomException($"{station.Title()} of sheet {TrackingNumber.ForPeople(number)} has not been done yet: there is nothing to repeat.");
        }

        var lost = again.Where(s => s.SkippedBecause.Length == 0).Sum(s => s.TotalSeconds);
        foreach (var stage in again)
        {
            (stage.State, stage.StartedUtc, stage.FinishedUtc, stage.StartedBy, stage.FinishedBy) = (StageState.Waiting, null, null, "", "");
            (stage.SkippedBecause, stage.Drawer) = ("", null);
            stage.Repeats++;
        }

        sheet.CurrentStation = station;
        var decision = Decision(sheet, station, StageDecisionKind.Repeat, reason, by, clock.GetUtcNow().UtcDateTime);
        decision.LostSeconds = lost;
        db.StageDecisions.Add(decision);
        await SaveAsync(db, cancel);
        Tell(sheet);
        var others = again.Count == 1 ? "" : $", and after it {string.Join(", ", again.Skip(1).Select(s => s.Station.Title().ToLowerInvariant()))}";
        return $"Sheet {TrackingNumber.ForPeople(number)} goes through {station.Title().ToLowerInvariant()} again{others}.";
    }

    /// <summary>A sheet that lay longer than its recipe allows goes on.</summary>
    /// <exception cref="PlateRoomException">Without a reason.</exception>
    public async Task GoOnAsync(string number, string reason, string by, CancellationToken cancel = default)
    {
        Needed(reason, "Say why it may go on: whoever finds the plate on press will ask.");
        await using var db = await OpenAsync(by, cancel);
        var sheet = await FindAsync(db, number, cancel);
        Open(sheet);
        var next = sheet.Stages.Where(s => s.State != StageState.Done).MinBy(s => s.Station)!;
        db.StageDecisions.Add(Decision(sheet, next.Station, StageDecisionKind.GoOn, reason, by, clock.GetUtcNow().UtcDateTime));
        await SaveAsync(db, cancel);
        Tell(sheet);
    }

    public async Task<IReadOnlyList<StageDecision>> OfSheetAsync(int sheetId, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.StageDecisions.AsNoTracking().Where(d => d.SheetId == sheetId).OrderBy(d => d.Id).ToListAsync(cancel);
    }

    /// <summary>Why sheets are put on hold most, for one touch. Common practice.</summary>
    public static IReadOnlyList<string> UsualReasons { get; } =
        ["scratch or dent", "wrong material or lot", "mask damaged", "reading looks wrong", "machine not right", "waits for the customer"];

    /// <summary>The sheet, read with its stages, is where it was; its open readings ask again. The caller saves.</summary>
    internal static async Task GoOnFromHoldAsync(PlateRoomDb db, Sheet sheet, CancellationToken cancel)
    {
        (sheet.State, sheet.HoldReason) = (sheet.Stages.Exists(s => s.State == StageState.Running) ? SheetState.Running : SheetState.Waiting, "");
        foreach (var reading in await db.StageReadings.Where(r => r.SheetId == sheet.Id && r.State == ReadingState.OnHold).ToListAsync(cancel))
        {
            reading.State = ReadingState.Open;
        }
    }

    internal static async Task SaveAsync(PlateRoomDb db, CancellationToken cancel)
    {
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            throw new PlateRoomException("Somebody else has just changed this sheet: look at it again, nothing was kept of yours.");
        }
    }

    private static StageDecision Decision(Sheet sheet, Station station, StageDecisionKind kind, string reason, string by, DateTime nowUtc) =>
        new() { SheetId = sheet.Id, Station = station, Kind = kind, Reason = reason.Trim(), By = by, AtUtc = nowUtc };

    private static void Needed(string reason, string sentence)
    {
        if (string.IsNullOrWhiteSpace(reason))
        {
            throw new PlateRoomException(sentence);
        }
    }

    private static void Open(Sheet sheet)
    {
        if (sheet.State is SheetState.Done or SheetState.Cancelled)
        {
            throw new PlateRoomException($"Sheet {TrackingNumber.ForPeople(sheet.Number)} is {(sheet.State == SheetState.Done ? "done" : "cancelled")}: there is nothing left to decide about it.");
        }
    }

    private static async Task<Sheet> FindAsync(PlateRoomDb db, string number, CancellationToken cancel) =>
        await db.Sheets.Include(s => s.Stages).SingleOrDefaultAsync(s => s.Number == number, cancel)
        ?? throw new PlateRoomException($"There is no sheet {TrackingNumber.ForPeople(number)}.");

    private async Task<PlateRoomDb> OpenAsync(string by, CancellationToken cancel)
    {
        var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        db.Clock = clock;
        return db;
    }

    private void Tell(Sheet sheet)
    {
        events.TellChanged([sheet.Id]);
        events.AskForPlan();
    }
}

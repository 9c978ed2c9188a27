using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Handovers;

/// <summary>A shift that can be handed over, with what is written of it so far.</summary>
/// <param name="Shift">Which.</param>
/// <param name="Handover">Null while nobody has written anything.</param>
public sealed record OpenHandover(ShiftDay Shift, Handover? Handover)
{
    public int Version => Handover?.Version ?? NotWritten;

    /// <summary>The version of a handover that is not in the database yet.</summary>
    public const int NotWritten = -1;
}

/// <summary>A line of the list of earlier handovers.</summary>
public sealed record HandoverLine(
    int Id, string ShiftName, DateOnly Day, DateTime StartUtc, DateTime EndUtc, HandoverState State, string ClosedBy, DateTime? ClosedUtc, string ConfirmedBy, DateTime? ConfirmedUtc);

/// <summary>Somebody else wrote, closed or confirmed it meanwhile; nothing was saved.</summary>
/// <param name="sentence">What happened, for people.</param>
/// <param name="now">How it is now.</param>
public sealed class HandoverChangedException(string sentence, Handover now) : Exception(sentence)
{
    public Handover Current => now;
}

/// <summary>Keeps what each shift tells the next: notes while it goes on, the facts when it is closed, and who has read it.</summary>
public sealed class HandoverDesk(
    IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, PlanBook plan, ShiftGoals goals, TimeProvider clock)
{
    /// <summary>An earlier shift that nobody has handed over is offered for so long.</summary>
    public static readonly TimeSpan OfferedFor = TimeSpan.FromHours(24);

    // For so long after its end the page opens with the shift that has just gone.
    private static readonly TimeSpan JustGone = TimeSpan.FromHours(2);

    /// <summary>The shifts that can be handed over now: the one at work, and those that ended within a day and were not closed; in order of their start.</summary>
    public async Task<IReadOnlyList<OpenHandover>> OpenAsync(CancellationToken cancel = default)
    {
        var room = await rooms.GetAsync(cancel);
        var now = clock.GetUtcNow().UtcDateTime;
        var shifts = room.ShiftsBetween(now - OfferedFor, now.AddTicks(1)).Where(s => s.StartUtc <= now).ToList();
        var earliest = shifts.Count == 0 ? now : shifts.Min(s => s.StartUtc);
        await using var db = await databases.CreateDbContextAsync(cancel);
        var known = await db.Handovers.AsNoTracking().Where(h => h.StartUtc >= earliest).ToListAsync(cancel);
        return [.. shifts
            .Select(s => new OpenHandover(s, known.Find(h => h.ShiftName == s.Name && h.StartUtc == s.StartUtc)))
            .Where(o => o.Handover is null or { State: HandoverState.Draft })];
    }

    /// <summary>Which of them a person most likely means: the shift that has just gone, else the one at work, else the last.</summary>
    public OpenHandover? Likely(IReadOnlyList<OpenHandover> open)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        return open.LastOrDefault(o => o.Shift.EndUtc <= now && now - o.Shift.EndUtc <= JustGone) ?? open.LastOrDefault(o => o.Shift.EndUtc > now) ?? open.LastOrDefault();
    }

    /// <summary>What a shift has to tell, as the room is now.</summary>
    public async Task<HandoverFacts> FactsAsync(ShiftDay shift, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await ReadAsync(db, shift, cancel);
    }

    /// <summary>Keeps the notes of a draft.</summary>
    /// <param name="shift">Whose.</param>
    /// <param name="notes">The whole text; at most <see cref="Handover.LongestNotes"/> characters.</param>
    /// <param name="seen">The version that the writer started from; <see cref="OpenHandover.NotWritten"/> for none.</param>
    /// <param name="by">Who writes.</param>
    /// <param name="cancel">Cancels.</param>
    /// <exception cref="PlateRoomException">The text is too long.</exception>
    /// <exception cref="HandoverChangedException">Somebody else wrote meanwhile: nothing was saved.</exception>
    public Task<Handover> SaveNotesAsync(ShiftDay shift, string notes, int seen, string by, CancellationToken cancel = default) =>
        ChangeAsync(shift, notes, seen, by, (_, _) => Task.CompletedTask, cancel);

    /// <summary>Closes a shift: its notes and facts are kept as they are now.</summary>
    /// <exception cref="PlateRoomException">The text is too long.</exception>
    /// <exception cref="HandoverChangedException">Somebody else wrote or closed it meanwhile: nothing was saved.</exception>
    public Task<Handover> CloseAsync(ShiftDay shift, string notes, int seen, string by, CancellationToken cancel = default) => ChangeAsync(
        shift, notes, seen, by,
        async (db, handover) =>
        {
            handover.Facts = await ReadAsync(db, shift, cancel);
            handover.State = HandoverState.Closed;
            (handover.ClosedBy, handover.ClosedUtc) = (by, clock.GetUtcNow().UtcDateTime);
            db.Note(nameof(Handover), handover.AuditKey, "handed the shift over", notes.Length == 0 ? "without notes" : notes);
        },
        cancel);

    /// <summary>The next shift has read it.</summary>
    /// <exception cref="PlateRoomException">It is not closed, or the same person closed it.</exception>
    /// <exception cref="HandoverChangedException">Somebody else confirmed it meanwhile: nothing was saved.</exception>
    public async Task<Handover> ConfirmAsync(int id, int seen, string remark, string by, CancellationToken cancel = default)
    {
        await using var db = Open(by);
        var handover = await db.Handovers.SingleOrDefaultAsync(h => h.Id == id, cancel) ?? throw new PlateRoomException("There is no such handover.");
        if (handover.State == HandoverState.Draft)
        {
            throw new PlateRoomException("This shift is not handed over yet: it can be confirmed once it is closed.");
        }

        if (handover.Version != seen || handover.State == HandoverState.Confirmed)
        {
            throw new HandoverChangedException(Happened(handover, await rooms.GetAsync(cancel)), handover);
        }

        if (handover.ClosedBy == by)
        {
            throw new PlateRoomException("You closed this shift yourself: somebody of the next shift confirms it.");
        }

        if (remark.Length > Handover.LongestRemark)
        {
            throw new PlateRoomException($"The remark has {remark.Length} characters; at most {Handover.LongestRemark} are kept.");
        }

        handover.State = HandoverState.Confirmed;
        (handover.ConfirmedBy, handover.ConfirmedUtc, handover.Remark) = (by, clock.GetUtcNow().UtcDateTime, remark.Trim());
        await SaveAsync(db, handover, cancel);
        return handover;
    }

    public async Task<Handover?> FindAsync(int id, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Handovers.AsNoTracking().SingleOrDefaultAsync(h => h.Id == id, cancel);
    }

    /// <summary>What is written of a shift; null for nothing yet.</summary>
    public async Task<Handover?> FindAsync(ShiftDay shift, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Handovers.AsNoTracking().SingleOrDefaultAsync(h => h.ShiftName == shift.Name && h.StartUtc == shift.StartUtc, cancel);
    }

    /// <summary>Closed handovers, the newest first.</summary>
    /// <param name="skip">How many to pass over.</param>
    /// <param name="take">How many at most.</param>
    /// <param name="cancel">Cancels.</param>
    public async Task<(IReadOnlyList<HandoverLine> Lines, int Count)> EarlierAsync(int skip, int take, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var closed = db.Handovers.Where(h => h.State != HandoverState.Draft);
        var lines = await closed.OrderByDescending(h => h.StartUtc).ThenByDescending(h => h.Id).Skip(skip).Take(take)
            .Select(h => new HandoverLine(h.Id, h.ShiftName, h.Day, h.StartUtc, h.EndUtc, h.State, h.ClosedBy, h.ClosedUtc, h.ConfirmedBy, h.ConfirmedUtc))
            .ToListAsync(cancel);
        return (lines, await closed.CountAsync(cancel));
    }

    private async Task<Handover> ChangeAsync(ShiftDay shift, string notes, int seen, string by, Func<PlateRoomDb, Handover, Task> more, CancellationToken cancel)
    {
        if (notes.Length > Handover.LongestNotes)
        {
            throw new PlateRoomException($"The notes have {notes.Length} characters; at most {Handover.LongestNotes} are kept. Shorten them: nothing of what you typed is lost.");
        }

        await using var db = Open(by);
        var handover = await db.Handovers.SingleOrDefaultAsync(h => h.ShiftName == shift.Name && h.StartUtc == shift.StartUtc, cancel);
        if ((handover?.Version ?? OpenHandover.NotWritten) != seen || handover is { State: not HandoverState.Draft })
        {
            throw new HandoverChangedException(Happened(handover!, await rooms.GetAsync(cancel)), handover!);
        }

        if (handover is null)
        {
            handover = new Handover { ShiftName = shift.Name, Day = shift.Day, StartUtc = shift.StartUtc, EndUtc = shift.EndUtc };
            db.Handovers.Add(handover);
        }

        if (handover.Notes != notes)
        {
            (handover.Notes, handover.NotesBy, handover.NotesUtc) = (notes, by, clock.GetUtcNow().UtcDateTime);
        }

        await more(db, handover);
        await SaveAsync(db, handover, cancel);
        return handover;
    }

    private async Task SaveAsync(PlateRoomDb db, Handover handover, CancellationToken cancel)
    {
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateException)
        {
            // Two in the same moment: the token of the one, or the unique shift of a first note, stops the other.
            await using var fresh = await databases.CreateDbContextAsync(cancel);
            if (await fresh.Handovers.AsNoTracking().SingleOrDefaultAsync(h => h.ShiftName == handover.ShiftName && h.StartUtc == handover.StartUtc, cancel) is not { } now)
            {
                throw;
            }

            throw new HandoverChangedException(Happened(now, await rooms.GetAsync(cancel)), now);
        }
    }

    private static string Happened(Handover now, Room room)
    {
        string At(DateTime? utc) => utc is { } at ? SiteClock.Moment(at, room.Zone) : "";
        return now.State switch
        {
            HandoverState.Confirmed => $"{now.ConfirmedBy} confirmed this handover at {At(now.ConfirmedUtc)}.",
            HandoverState.Closed => $"{now.ClosedBy} closed this shift at {At(now.ClosedUtc)}. Your text was not saved with it: copy it before you leave, and tell the next shift.",
            _ => $"{now.NotesBy} changed these notes at {At(now.NotesUtc)} while you were writing. Nothing of yours is saved yet.",
        };
    }

    private async Task<HandoverFacts> ReadAsync(PlateRoomDb db, ShiftDay shift, CancellationToken cancel) => await new HandoverReader(
        db, await rooms.GetAsync(cancel), plan, await goals.FindAsync(shift, cancel), shift, clock.GetUtcNow().UtcDateTime).ReadAsync(cancel);

    private PlateRoomDb Open(string by)
    {
        var db = databases.CreateDbContext();
        (db.ActingAs, db.Clock) = (by, clock);
        return db;
    }
}

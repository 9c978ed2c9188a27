using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Recipes;

/// <summary>An open sheet that was made with another revision of the same material's recipe.</summary>
public sealed record TouchedSheet(int SheetId, string Number, string Ticket, string Customer, string Title, int Revision, bool Started);

/// <summary>Revisions of recipes: drafted, released, withdrawn, never overwritten once released.</summary>
public sealed class RecipeBook(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, RoomEvents events, TimeProvider clock)
{
    /// <summary>A new draft, or the material's one draft changed. Returns its id.</summary>
    /// <param name="materialId">The material.</param>
    /// <param name="settings">The settings; they must compute on every machine that the recipe needs.</param>
    /// <param name="by">Who drafts.</param>
    /// <param name="stepTestId">The step test that the back exposure time comes from, if it does.</param>
    /// <param name="doubt">What a person must answer with a reason before release; empty for nothing.</param>
    /// <param name="cancel">Cancels.</param>
    /// <exception cref="PlateRoomException">A setting cannot be.</exception>
    public async Task<int> DraftAsync(
        int materialId, RecipeSettings settings, string by, int? stepTestId = null, string doubt = "", CancellationToken cancel = default)
    {
        var room = await rooms.GetAsync(cancel);
        RecipeRules.Check(settings, room.Materials[materialId], room, clock.GetUtcNow().UtcDateTime);
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        db.Clock = clock;
        var draft = await db.RecipeRevisions.SingleOrDefaultAsync(r => r.MaterialId == materialId && r.State == RecipeState.Draft, cancel);
        if (draft is null)
        {
            var last = await db.RecipeRevisions.Where(r => r.MaterialId == materialId).MaxAsync(r => (int?)r.Number, cancel) ?? 0;
            draft = new RecipeRevision { MaterialId = materialId, Number = last + 1, State = RecipeState.Draft, Settings = settings, ReleasedBy = by };
            db.RecipeRevisions.Add(draft);
        }

        draft.Settings = settings;
        draft.ReleasedBy = by;
        draft.ReleasedUtc = clock.GetUtcNow().UtcDateTime;
        draft.StepTestId = stepTestId ?? draft.StepTestId;
        draft.Doubt = stepTestId is null ? draft.Doubt : doubt;
        await db.SaveChangesAsync(cancel);
        rooms.Forget();
        return draft.Id;
    }

    /// <summary>Makes a draft of each material's settings; all of them or, when one cannot be, none.</summary>
    /// <exception cref="PlateRoomException">A setting cannot be; its material is named.</exception>
    public async Task DraftAllAsync(IReadOnlyDictionary<int, RecipeSettings> byMaterial, string by, CancellationToken cancel = default)
    {
        var room = await rooms.GetAsync(cancel);
        foreach (var (material, settings) in byMaterial)
        {
            try
            {
                RecipeRules.Check(settings, room.Materials[material], room, clock.GetUtcNow().UtcDateTime);
            }
            catch (PlateRoomException refused)
            {
                throw new PlateRoomException($"{room.Materials[material].Name}: {refused.Message}");
            }
        }

        foreach (var (material, settings) in byMaterial)
        {
            await DraftAsync(material, settings, by, cancel: cancel);
        }
    }

    /// <summary>Releases a draft: new sheets are made with it. Sheets that exist keep their revision.</summary>
    /// <exception cref="PlateRoomException">Without a reason, or not a draft.</exception>
    public async Task ReleaseAsync(int revisionId, string by, string reason, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var revision = await FindAsync(db, revisionId, RecipeState.Draft, "released", cancel);
        if (string.IsNullOrWhiteSpace(reason))
        {
            throw new PlateRoomException(
                revision.Doubt.Length > 0
                    ? $"{revision.Doubt} It can be released with a reason only: write why."
                    : "Write why this revision is made: it stays with the recipe and on every comparison.");
        }

        await SetAsync(db, revision, RecipeState.Released, by, reason, cancel);
    }

    /// <summary>Withdraws a revision: no new sheet is made with it. The one before it, if released, counts again.</summary>
    /// <exception cref="PlateRoomException">Without a reason, or not released.</exception>
    public async Task WithdrawAsync(int revisionId, string by, string reason, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var revision = await FindAsync(db, revisionId, RecipeState.Released, "withdrawn", cancel);
        if (string.IsNullOrWhiteSpace(reason))
        {
            throw new PlateRoomException("Write why this revision is withdrawn.");
        }

        await SetAsync(db, revision, RecipeState.Withdrawn, by, $"{revision.Note}; withdrawn: {reason.Trim()}", cancel);
    }

    /// <summary>The open sheets of the material that were made with another revision.</summary>
    public async Task<List<TouchedSheet>> TouchedAsync(int revisionId, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var material = await db.RecipeRevisions.Where(r => r.Id == revisionId).Select(r => r.MaterialId).SingleAsync(cancel);
        return await db.Sheets
            .Where(s => s.MaterialId == material && s.RecipeRevisionId != revisionId
                && (s.State == SheetState.Waiting || s.State == SheetState.Running || s.State == SheetState.OnHold))
            .OrderBy(s => s.Id)
            .Select(s => new TouchedSheet(
                s.Id, s.Number,
                s.Placements.OrderBy(p => p.Id).Select(p => p.Plate!.Ticket!.Order!.Number).First(),
                s.Placements.OrderBy(p => p.Id).Select(p => p.Plate!.Ticket!.Order!.Customer!.Name).First(),
                s.Placements.OrderBy(p => p.Id).Select(p => p.Plate!.Ticket!.Order!.Title).First(),
                s.RecipeRevision!.Number, s.Stages.Any(t => t.State != StageState.Waiting)))
            .ToListAsync(cancel);
    }

    /// <summary>Gives the open sheets that have not started the released revision, and has them planned anew. Returns how many.</summary>
    public async Task<int> RetimeAsync(int revisionId, string by, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        db.Clock = clock;
        var revision = await FindAsync(db, revisionId, RecipeState.Released, "used", cancel);
        var ids = (await TouchedAsync(revisionId, cancel)).Where(t => !t.Started).Select(t => t.SheetId).ToList();
        var sheets = await db.Sheets.Include(s => s.Stages).Where(s => ids.Contains(s.Id)).ToListAsync(cancel);
        var route = revision.Settings.Route.ToList();
        foreach (var sheet in sheets)
        {
            sheet.RecipeRevisionId = revision.Id;
            sheet.Stages.RemoveAll(s => !route.Contains(s.Station));
            sheet.Stages.AddRange(route.Where(r => sheet.Stages.TrueForAll(s => s.Station != r)).Select(r => new Stage { Station = r }));
        }

        await db.SaveChangesAsync(cancel);
        events.TellChanged(ids);
        events.AskForPlan();
        return sheets.Count;
    }

    private static async Task<RecipeRevision> FindAsync(PlateRoomDb db, int id, RecipeState wanted, string word, CancellationToken cancel)
    {
        var revision = await db.RecipeRevisions.SingleOrDefaultAsync(r => r.Id == id, cancel)
            ?? throw new PlateRoomException("There is no such revision.");
        return revision.State == wanted
            ? revision
            : throw new PlateRoomException($"Revision {revision.Number} is {revision.State.ToString().ToLowerInvariant()} and cannot be {word}.");
    }

    private async Task SetAsync(PlateRoomDb db, RecipeRevision revision, RecipeState state, string by, string note, CancellationToken cancel)
    {
        db.ActingAs = by;
        db.Clock = clock;
        revision.State = state;
        revision.Note = note.Trim();
        revision.ReleasedBy = by;
        revision.ReleasedUtc = clock.GetUtcNow().UtcDateTime;
        await db.SaveChangesAsync(cancel);
        rooms.Forget();
    }
}

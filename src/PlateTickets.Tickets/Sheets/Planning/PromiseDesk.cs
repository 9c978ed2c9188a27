using PlateTickets.Planning.Nesting;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Lateness;
using PlateTickets.Planning.Scheduling.Replanning;
using PlateTickets.Process;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Sheets.Planning;

/// <summary>Sheets of an order that is not saved yet: how large they are and how many plates lie on each.</summary>
public sealed record AskedSheet(int WidthUm, int LengthUm, int AxialExtentUm, int Plates)
{
    public static AskedSheet Of(NestSheet nested) => new((int)nested.Width, (int)nested.Length, (int)nested.AxialExtent, nested.Plates.Count);
}

/// <summary>What can be promised to a customer, before anything is saved.</summary>
/// <param name="InTurn">Without making the others later.</param>
/// <param name="Rush">Before everything that is not about to start.</param>
/// <param name="Sheets">For how many sheets.</param>
public sealed record OrderPromise(Promise InTurn, Promise Rush, int Sheets);

/// <summary>Answers when an order would be done, from the newest plan in memory.</summary>
public sealed class PromiseDesk(RoomCatalog rooms, StageSpreads spreads, PlanBook book, TimeProvider clock)
{
    /// <summary>Most sheets that are asked for at once: more is no order of one plate room's day.</summary>
    public const int MostSheets = 100;

    /// <summary>Promises are given to so many minutes, upward.</summary>
    public static readonly TimeSpan Step = TimeSpan.FromMinutes(5);

    /// <param name="materialId">The plate material.</param>
    /// <param name="sheets">The sheets that the order would take; one whole sheet of the largest stock size when there are none yet.</param>
    /// <param name="cancel">Stops the simulation.</param>
    /// <exception cref="PlateRoomException">Nobody can tell, in a sentence that says why.</exception>
    public async Task<OrderPromise> AskAsync(int materialId, IReadOnlyList<AskedSheet> sheets, CancellationToken cancel = default)
    {
        var room = await rooms.GetAsync(cancel);
        if (!room.Materials.TryGetValue(materialId, out var material) || room.Released(materialId) is not { } revision)
        {
            throw new PlateRoomException($"{material?.Name ?? "This material"} has no released recipe, so nobody can say how long its sheets take.");
        }

        if (sheets.Count > MostSheets)
        {
            throw new PlateRoomException($"The order takes {sheets.Count} sheets; a promise can be given for {MostSheets} at most. Split the order.");
        }

        if (sheets.Count == 0)
        {
            var largest = room.StockSizes.Where(s => s.MaterialId == materialId).MaxBy(s => (long)s.WidthUm * s.LengthUm)
                ?? throw new PlateRoomException($"{material.Name} has no stock size, so no sheet can be made of it.");
            sheets = [new AskedSheet(largest.WidthUm, largest.LengthUm, largest.WidthUm - (2 * room.Site.SideMarginUm), 1)];
        }

        var now = clock.GetUtcNow().UtcDateTime;
        var live = book.Now?.Live ?? LivePlan.Start(PlanInput.Build(room, [], [], await spreads.GetAsync(cancel), now).Request);
        var asked = PlanInput.Imagined(room, [.. sheets.Select((s, i) => SheetOf(s, i, revision))], await spreads.GetAsync(cancel), now)
            ?? throw new PlateRoomException($"No machine of this room can finish a sheet of {material.Name}: look at its lamp readings and at the recipe.");
        try
        {
            var answer = await Task.Run(() => Promising.Ask(live, asked, cancel: cancel), cancel);
            return new OrderPromise(answer.InTurn, answer.Rush, sheets.Count);
        }
        catch (PlanException refused)
        {
            throw new PlateRoomException(refused.Message);
        }
    }

    /// <summary>Up to the next whole step: what is said to a customer.</summary>
    public static DateTime Rounded(DateTime utc) => new((utc.Ticks + Step.Ticks - 1) / Step.Ticks * Step.Ticks, DateTimeKind.Utc);

    // Ids below zero: they are in no database, so the plan cannot take them for sheets of its own.
    private static Sheet SheetOf(AskedSheet asked, int index, Recipes.RecipeRevision revision) => new()
    {
        Id = -1 - index,
        Number = "",
        MaterialId = revision.MaterialId,
        RecipeRevisionId = revision.Id,
        WidthUm = asked.WidthUm,
        LengthUm = asked.LengthUm,
        AxialExtentUm = asked.AxialExtentUm,
        PlateCount = asked.Plates,
        State = SheetState.Waiting,
        Stages = [.. revision.Settings.Route.Select((s, i) => new Stage { Id = -1 - (index * 100) - i, Station = s })],
    };
}

using System.Globalization;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using PlateTickets.Tickets.Database;

namespace PlateTickets.Tickets.Sheets.Planning;

/// <summary>
/// Writes the planned times of many stages in one statement. A new plan moves hundreds of stages and mostly nothing but their times; row by row that
/// keeps the scans waiting.
/// </summary>
internal static class PlannedTimes
{
    // As dates are written into SQLite.
    private const string SqliteTime = "yyyy-MM-dd HH:mm:ss.FFFFFFF";

    /// <summary>Are its planned times all that changed of a stage?</summary>
    public static bool AreAll(EntityEntry<Stage> stage) =>
        stage.Entity is { PlannedStartUtc: not null, PlannedFinishUtc: not null, DueByUtc: not null }
        && stage.Properties.Where(p => p.IsModified).All(p => p.Metadata.Name is nameof(Stage.PlannedStartUtc) or nameof(Stage.PlannedFinishUtc) or nameof(Stage.DueByUtc));

    /// <summary>
    /// Counts up the versions of <paramref name="sheets"/>: a change made from what was read before makes that save fail, not disappear. Writes the times of
    /// <paramref name="stages"/>, which count as saved then. Within the caller's transaction.
    /// </summary>
    public static async Task WriteAsync(PlateRoomDb db, IReadOnlyList<int> sheets, IReadOnlyList<Stage> stages, CancellationToken cancel)
    {
        if (sheets.Count == 0)
        {
            return;
        }

        if (db.IsPostgreSql())
        {
            int[] ids = [.. sheets];
            await db.Database.ExecuteSqlAsync($"""UPDATE "Sheets" SET "Version" = "Version" + 1 WHERE "Id" = ANY ({ids})""", cancel);
            int[] moved = [.. stages.Select(s => s.Id)];
            DateTime[] starts = [.. stages.Select(s => s.PlannedStartUtc!.Value)];
            DateTime[] finishes = [.. stages.Select(s => s.PlannedFinishUtc!.Value)];
            DateTime[] dues = [.. stages.Select(s => s.DueByUtc!.Value)];
            await db.Database.ExecuteSqlAsync(
                $"""
                UPDATE "Stages" AS s SET "PlannedStartUtc" = m.start, "PlannedFinishUtc" = m.finish, "DueByUtc" = m.due
                FROM unnest({moved}, {starts}, {finishes}, {dues}) AS m (id, start, finish, due) WHERE s."Id" = m.id
                """,
                cancel);
        }
        else
        {
            var ids = JsonSerializer.Serialize(sheets);
            await db.Database.ExecuteSqlAsync($"""UPDATE "Sheets" SET "Version" = "Version" + 1 WHERE "Id" IN (SELECT value FROM json_each({ids}))""", cancel);
            var moved = JsonSerializer.Serialize(stages.Select(s => new object[] { s.Id, Text(s.PlannedStartUtc!.Value), Text(s.PlannedFinishUtc!.Value), Text(s.DueByUtc!.Value) }));
            await db.Database.ExecuteSqlAsync(
                $"""
                UPDATE "Stages" SET "PlannedStartUtc" = m.value ->> 1, "PlannedFinishUtc" = m.value ->> 2, "DueByUtc" = m.value ->> 3
                FROM json_each({moved}) AS m WHERE "Stages"."Id" = m.value ->> 0
                """,
                cancel);
        }

        foreach (var stage in stages)
        {
            db.Entry(stage).State = EntityState.Unchanged;
        }
    }

    private static string Text(DateTime utc) => utc.ToString(SqliteTime, CultureInfo.InvariantCulture);
}

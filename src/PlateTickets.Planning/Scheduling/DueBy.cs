namespace PlateTickets.Planning.Scheduling;

/// <summary>The latest finish of each stage that still keeps the sheet's due time, on an otherwise empty room.</summary>
public static class DueBy
{
    /// <summary>
    /// Goes backward from the due time: the last stage finishes by it; before that its unloading lies in working time,
    /// its run at any time, its loading in working time again; the stage before must finish the least wait earlier.
    /// Of several machines the one that lets the sheet come latest counts; a running stage counts on its own machine.
    /// <para>Where the calendar does not reach back far enough (or no working interval is long enough), the times are
    /// simply subtracted as if somebody were always there, so that there always is a value.</para>
    /// </summary>
    /// <returns>One instant (UTC) for each of the sheet's stages, in their order.</returns>
    public static IReadOnlyList<DateTime> Of(PlanSheet sheet, WorkingTime working)
    {
        var ticks = Ticks(sheet, working.Set);
        return [.. ticks.Select(t => new DateTime(t, DateTimeKind.Utc))];
    }

    internal static long[] Ticks(PlanSheet sheet, IntervalSet working)
    {
        var result = new long[sheet.Stages.Count];
        var limit = sheet.DueUtc.Ticks;
        for (var i = result.Length - 1; i >= 0; i--)
        {
            var stage = sheet.Stages[i];
            var finish = long.MinValue;
            var start = long.MinValue;
            foreach (var option in stage.Options)
            {
                if (stage.Running is { } running && option.EquipmentId != running.EquipmentId)
                {
                    continue;
                }

                var unloaded = Back(working, limit, option.Unload.Ticks);
                var loaded = Back(working, unloaded - option.Unload.Ticks - option.Run.Ticks, option.Load.Ticks);
                finish = Math.Max(finish, unloaded);
                start = Math.Max(start, loaded - option.Load.Ticks);
            }

            result[i] = Math.Max(0, finish);
            limit = i == 0 ? 0 : Math.Max(0, start - sheet.Stages[i - 1].LeastWaitAfter.Ticks);
        }

        return result;
    }

    private static long Back(IntervalSet working, long notAfter, long length)
    {
        var finish = working.LatestFinish(notAfter, length);
        return finish < 0 ? notAfter : finish;
    }
}

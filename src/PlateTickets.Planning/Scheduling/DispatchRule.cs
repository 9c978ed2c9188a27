namespace PlateTickets.Planning.Scheduling;

/// <summary>Which of the waiting sheets is placed next; told in words at <see cref="DispatchPlanner"/>.</summary>
internal static class DispatchRule
{
    public static SheetQueue Next(List<SheetQueue> waiting)
    {
        var (earliest, limit) = Earliest(waiting);
        var machine = earliest.Machine;
        var queue = 0;
        foreach (var sheet in waiting)
        {
            queue += There(sheet) ? 1 : 0;
        }

        var chosen = earliest;
        var least = earliest.Urgency;
        foreach (var sheet in waiting)
        {
            var urgency = sheet.Machine == machine && sheet.Start <= limit ? sheet.Urgency
                : There(sheet) ? AfterSetup(sheet, sheet.Start - earliest.Start, queue)
                : double.MaxValue;
            if (urgency < least)
            {
                (chosen, least) = (sheet, urgency);
            }
        }

        return chosen;

        bool There(SheetQueue sheet) => sheet.Machine == machine && sheet.Ready <= limit;
    }

    /// <summary>The same by another rule.</summary>
    /// <param name="waiting">All sheets that wait for a stage.</param>
    /// <param name="rule">How they are compared.</param>
    /// <param name="mean">Mean length of a stage in seconds.</param>
    public static SheetQueue Next(List<SheetQueue> waiting, ApparentUrgency rule, double mean)
    {
        var (earliest, limit) = Earliest(waiting);
        var (chosen, most) = (earliest, earliest.Apparent(earliest.Start, rule, mean));
        foreach (var sheet in waiting)
        {
            if (sheet.Machine == earliest.Machine && (sheet.Start <= limit || sheet.Ready <= limit) && sheet.Apparent(earliest.Start, rule, mean) is var urgency && urgency > most)
            {
                (chosen, most) = (sheet, urgency);
            }
        }

        return chosen;
    }

    // What can start first, and until when others count as starting hardly later.
    private static (SheetQueue Sheet, int Limit) Earliest(List<SheetQueue> waiting)
    {
        var earliest = waiting[0];
        foreach (var sheet in waiting)
        {
            earliest = sheet.Start < earliest.Start ? sheet : earliest;
        }

        return (earliest, earliest.Start + (int)DispatchPlanner.NearTie.TotalSeconds);
    }

    // The sheet is there but the machine must be made ready for it: that delays everyone who waits there, so it counts
    // against the sheet once for each of them, and only a sheet that would be late after waiting as long again may ask for it.
    private static double AfterSetup(SheetQueue sheet, int delay, int queue) =>
        sheet.Best.Finish + delay < sheet.DueBy ? double.MaxValue : sheet.Urgency + ((double)delay * queue);
}

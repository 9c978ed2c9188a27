using Google.OrTools.Sat;

namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>A line in a constraint model: one loading at a time, entry spacing, and an empty line with a changeover between two recipes.</summary>
internal static class CpLine
{
    public static void Add(CpModel model, Shop shop, int m, List<CpStay> stays, IntVar[] start, IntVar[] finish, CpCalendar calendar, int horizon)
    {
        var changeover = shop.Machines[m].Changeover;
        foreach (var (from, to) in shop.Down[m])
        {
            foreach (var stay in stays.Where(s => shop.FrozenStart[s.Op] is null))
            {
                var before = model.NewBoolVar($"b{stay.Op}_{from}");
                Only(model.Add(finish[stay.Op] <= from), stay.Lit, before);
                Only(model.Add(start[stay.Op] >= to), stay.Lit, before.Not());
            }
        }

        var change = new IntVar?[stays.Count];
        for (var i = 0; i < stays.Count; i++)
        {
            for (var j = i + 1; j < stays.Count; j++)
            {
                var (a, b) = (stays[i], stays[j]);
                var (fa, fb) = (shop.FrozenStart[a.Op] is not null, shop.FrozenStart[b.Op] is not null);
                if (fa && fb)
                {
                    continue;
                }

                var first = model.NewBoolVar($"o{a.Op}_{b.Op}");
                if (fa || fb)
                {
                    model.Add(first == (fa ? 1 : 0));
                }

                Order(i, j, first);
                Order(j, i, first.Not());
            }
        }

        void Order(int i, int j, ILiteral when)
        {
            var (a, b) = (stays[i], stays[j]);
            if (shop.FrozenStart[b.Op] is not null)
            {
                return;
            }

            var entryA = start[a.Op] + a.Way.Load;
            ILiteral[] lits = [when, .. new[] { a.Lit, b.Lit }.OfType<ILiteral>()];
            if (Recipe(a) == Recipe(b))
            {
                // Loaded when the last one has entered, and enters after its spacing.
                model.Add(start[b.Op] >= entryA).OnlyEnforceIf(lits);
                model.Add(start[b.Op] + b.Way.Load >= entryA + a.Way.Spacing).OnlyEnforceIf(lits);
                return;
            }

            change[j] ??= Changeover(j);
            model.Add(change[j]! >= entryA + a.Way.Run).OnlyEnforceIf(lits);
        }

        IntVar Changeover(int j)
        {
            var begin = model.NewIntVar(shop.Now, horizon, $"c{stays[j].Op}");
            if (changeover > 0 && !calendar.Plain)
            {
                model.AddLinearExpressionInDomain(begin, calendar.Starts(changeover));
            }

            Only(model.Add(start[stays[j].Op] >= begin + changeover), stays[j].Lit);
            return begin;
        }

        int Recipe(CpStay stay) => shop.Sheets[shop.JobOf[stay.Op]].RecipeId;
    }

    private static void Only(Constraint constraint, params ILiteral?[] lits)
    {
        var known = lits.OfType<ILiteral>().ToArray();
        if (known.Length > 0)
        {
            constraint.OnlyEnforceIf(known);
        }
    }
}

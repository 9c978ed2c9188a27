using System.Globalization;

namespace PlateTickets.Planning.Nesting;

/// <summary>Checks a layout without knowing how it was made.</summary>
public static class LayoutChecker
{
    /// <summary>What is wrong with a sheet, one sentence each: plates outside the margins, too close, overlapping, or not to be cut apart edge to edge.</summary>
    public static IReadOnlyList<string> Violations(NestSheet sheet, NestRules rules)
    {
        var found = new List<string>();
        foreach (var p in sheet.Plates)
        {
            if (p.X < rules.SideMargin || p.X + p.Width > sheet.Width - rules.SideMargin)
            {
                found.Add(Say($"Plate {p.PlateId} lies in the side margin: it reaches from {Mm(p.X)} to {Mm(p.X + p.Width)} mm of {Mm(sheet.Width)} mm."));
            }

            if (p.Y < rules.ClampMargin || p.Y + p.Length > sheet.Length - rules.ClampMargin)
            {
                found.Add(Say($"Plate {p.PlateId} lies in the clamp margin: it reaches from {Mm(p.Y)} to {Mm(p.Y + p.Length)} mm of {Mm(sheet.Length)} mm."));
            }
        }

        for (var i = 0; i < sheet.Plates.Count; i++)
        {
            for (var j = i + 1; j < sheet.Plates.Count; j++)
            {
                Compare(sheet.Plates[i], sheet.Plates[j], rules.Gap, found);
            }
        }

        if (CutList.Of(sheet, rules.Gap) is null)
        {
            found.Add("The plates cannot be cut apart with cuts from edge to edge.");
        }

        return found;
    }

    private static void Compare(PlacedPlate a, PlacedPlate b, long gap, List<string> found)
    {
        var apartX = Math.Max(a.X - (b.X + b.Width), b.X - (a.X + a.Width));
        var apartY = Math.Max(a.Y - (b.Y + b.Length), b.Y - (a.Y + a.Length));
        var apart = Math.Max(apartX, apartY);
        if (apart < 0)
        {
            found.Add(Say($"Plates {a.PlateId} and {b.PlateId} overlap."));
        }
        else if (apart < gap)
        {
            found.Add(Say($"Plates {a.PlateId} and {b.PlateId} are {Mm(apart)} mm apart; the knife needs {Mm(gap)} mm."));
        }
    }

    private static double Mm(long micrometres) => micrometres / 1000.0;

    private static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);
}

using PlateTickets.Process;
using PlateTickets.Process.Distortion;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Orders;

/// <summary>What a set of separations must be before plates are made of it.</summary>
public static class SeparationRules
{
    public static int Micrometres(double mm) => (int)Math.Round(mm * 1000);

    /// <summary>The sentence for a file that cannot become a plate of this material, or null.</summary>
    public static string? CheckOne(SeparationFacts facts, int materialId, Room room, LengthSystem? units = null)
    {
        if (string.IsNullOrWhiteSpace(facts.Colour))
        {
            return $"{facts.FileName}: the colour is neither in the file nor in its name. Type it.";
        }

        if (SheetMaker.Fits(room, materialId, Micrometres(facts.WidthMm), Micrometres(facts.HeightMm)))
        {
            return null;
        }

        var shown = units ?? room.Site.Units;
        var largest = room.StockSizes.Where(s => s.MaterialId == materialId).MaxBy(s => (long)s.WidthUm * s.LengthUm);
        var material = room.Materials[materialId].Name;
        var have = largest is null
            ? $"{material} has no stock size yet"
            : $"the largest sheet of {material} is {shown.Size(largest.WidthUm / 1000.0, largest.LengthUm / 1000.0)}, less its rims";
        return $"{facts.FileName} is {shown.Size(facts.WidthMm, facts.HeightMm)} and fits on no stock size: {have}. Check the file's resolution, or choose another material.";
    }

    /// <summary>What the file's length around looks like against the repeat and the plate.</summary>
    /// <exception cref="PlateRoomException">The repeat is too short for the plate.</exception>
    public static LengthFinding Length(SeparationFacts facts, double repeatMm, int materialId, Room room, LengthSystem? units = null)
    {
        var others = room.Materials.Values.Where(m => m.Id != materialId).Select(m => (m.ThicknessUm / 1000.0, m.BaseUm / 1000.0));
        var material = room.Materials[materialId];
        return LengthCheck.Of(facts.HeightMm, repeatMm, material.ThicknessUm / 1000.0, material.BaseUm / 1000.0, others, units: units ?? room.Site.Units);
    }

    /// <summary>Does this length need a person's reason before a plate is made of it?</summary>
    public static bool NeedsReason(LengthVerdict verdict) =>
        verdict is LengthVerdict.NotDistorted or LengthVerdict.OtherThickness or LengthVerdict.Twice or LengthVerdict.TooLong;

    /// <summary>Adds a sentence for each file that cannot be taken or needs a reason, and for colours that come twice.</summary>
    public static void Check(
        IReadOnlyList<ReadSeparation> added, IReadOnlyList<Separation> present, int copies, double repeatMm, int materialId, Room room, Dictionary<string, string> errors)
    {
        List<JobFile> job = [.. present.Select(JobFile.Of), .. added.Select(JobFile.Of)];
        var colours = present.Select(s => s.Colour).ToHashSet(StringComparer.OrdinalIgnoreCase);
        for (var i = 0; i < added.Count; i++)
        {
            var (facts, _, _, acceptedBecause) = added[i];
            if (CheckOne(facts, materialId, room) is { } wrong)
            {
                errors[facts.FileName] = wrong;
            }
            else if (string.IsNullOrWhiteSpace(acceptedBecause) && Length(facts, repeatMm, materialId, room) is { } finding && NeedsReason(finding.Verdict))
            {
                errors[facts.FileName] = $"{facts.FileName}: {finding.Sentence} Send the right file, or accept it with a reason.";
            }
            else if (string.IsNullOrWhiteSpace(acceptedBecause) && JobFindings.Of(job[present.Count + i], job, room.Site.Units).FirstOrDefault(f => f.NeedsReason) is { } odd)
            {
                errors[facts.FileName] = $"{odd.Sentence} It can be accepted with a reason.";
            }
            else if (!colours.Add(facts.Colour.Trim()))
            {
                errors[facts.FileName] = $"{facts.FileName}: this job has a {facts.Colour.Trim()} already. Change the colour, or leave one file out.";
            }
        }

        CheckPlates((present.Count + added.Count) * copies, errors);
    }

    /// <summary>A ticket with too many plates, unless the number of copies is wrong by itself.</summary>
    internal static void CheckPlates(int plates, Dictionary<string, string> errors)
    {
        if (plates > OrderRules.MostPlates)
        {
            errors.TryAdd(nameof(NewOrder.Copies), $"{plates} plates are more than a ticket may have ({OrderRules.MostPlates}): split the order.");
        }
    }
}

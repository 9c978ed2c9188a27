using PlateTickets.Process.Units;
using PlateTickets.Tickets.Orders.Separations;

namespace PlateTickets.Tickets.Orders;

/// <summary>What the files of one job show when they are looked at together.</summary>
public static class JobFindings
{
    // A rounded page size may differ by a pixel; on press a tenth of a millimetre is seen.
    private const int SameSizeUm = 100;

    /// <summary>
    /// What is odd about one file of a job. A blank file, a copy of another and another size need a reason; a solid and another
    /// resolution are only said, since a flood plate and a coarser spot colour are usual.
    /// </summary>
    /// <param name="file">One of <paramref name="job"/>.</param>
    /// <param name="job">All files of the job in the order in which they came.</param>
    /// <param name="units">For sizes.</param>
    public static IReadOnlyList<SeparationFinding> Of(JobFile file, IReadOnlyList<JobFile> job, LengthSystem units)
    {
        var found = new List<SeparationFinding>();
        if (file.Coverage == 0)
        {
            found.Add(new($"{file.FileName} is blank: there is no ink in it. Leave it out, or send the right file.", NeedsReason: true));
        }
        else if (file.Coverage == 1)
        {
            found.Add(new($"{file.FileName} is solid: all of it is ink. Right for a flood plate; otherwise it may be a negative.", NeedsReason: false));
        }

        if (Copy(file, job) is { } copied)
        {
            found.Add(copied);
        }

        if (Other(file, job, SameSize) is { } size)
        {
            found.Add(new(
                $"{file.FileName} is {Size(file, units)}, but {size.FileName} is {Size(size, units)}: the colours of one job are one size, or they do not register. Check both files.",
                NeedsReason: true));
        }

        if (Other(file, job, SameResolution) is { } resolution)
        {
            found.Add(new($"{file.FileName} has {Ppi(file)}, but {resolution.FileName} has {Ppi(resolution)}.", NeedsReason: false));
        }

        return found;
    }

    /// <summary>An earlier file of the job with the same bytes or the same image under another colour.</summary>
    private static SeparationFinding? Copy(JobFile file, IReadOnlyList<JobFile> job)
    {
        foreach (var earlier in job)
        {
            if (ReferenceEquals(earlier, file))
            {
                return null;
            }

            // Two blank files look the same without being copies.
            var sameFile = earlier.Sha256 == file.Sha256;
            if (sameFile || (file.ImageHash.Length > 0 && file.Coverage is > 0 and < 1 && earlier.ImageHash == file.ImageHash))
            {
                var how = sameFile ? "is the same file as" : "shows the same image as";
                return new($"{file.FileName} {how} {earlier.FileName} ({Name(earlier)}): one of the two colours has the wrong file.", NeedsReason: true);
            }
        }

        return null;
    }

    /// <summary>A file of the kind that most of the job has (the earliest when there is no majority), when this one is of another kind.</summary>
    private static JobFile? Other(JobFile file, IReadOnlyList<JobFile> job, Func<JobFile, JobFile, bool> same)
    {
        var usual = job.MaxBy(f => job.Count(o => same(f, o)));
        return usual is null || same(usual, file) ? null : usual;
    }

    private static bool SameSize(JobFile a, JobFile b) => Math.Abs(a.WidthUm - b.WidthUm) <= SameSizeUm && Math.Abs(a.LengthUm - b.LengthUm) <= SameSizeUm;

    private static bool SameResolution(JobFile a, JobFile b) =>
        Math.Abs(a.XPixelsPerMm - b.XPixelsPerMm) <= a.XPixelsPerMm / 1000 && Math.Abs(a.YPixelsPerMm - b.YPixelsPerMm) <= a.YPixelsPerMm / 1000;

    private static string Name(JobFile file) => file.Colour.Length > 0 ? file.Colour : "no colour yet";

    private static string Size(JobFile file, LengthSystem units) => units.Size(file.WidthUm / 1000.0, file.LengthUm / 1000.0);

    private static string Ppi(JobFile file) => SeparationFacts.Resolution(file.XPixelsPerMm, file.YPixelsPerMm);
}

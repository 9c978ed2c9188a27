using PlateTickets.Process.Units;
using PlateTickets.Tickets.Orders;

namespace PlateTickets.Tickets.Tests.Orders;

public class JobFindingsTests
{
    [Fact]
    public void FilesThatBelongTogether_GiveNoFinding()
    {
        JobFile[] job = [File("Cyan"), File("Magenta"), File("Yellow")];
        Assert.All(job, f => Assert.Empty(JobFindings.Of(f, job, LengthSystem.Metric)));
    }

    [Fact]
    public void SameFileUnderTwoColours_IsSaidAtTheSecond()
    {
        JobFile[] job = [File("Cyan"), File("Magenta") with { Sha256 = "Cyan" }];
        Assert.Empty(JobFindings.Of(job[0], job, LengthSystem.Metric));
        var found = Assert.Single(JobFindings.Of(job[1], job, LengthSystem.Metric));
        Assert.True(found.NeedsReason);
        Assert.Contains("Magenta.tif is the same file as Cyan.tif (Cyan)", found.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void SameImageInAnotherFile_IsSaid_ButTwoBlankFilesAreNoCopies()
    {
        JobFile[] copies = [File("Cyan"), File("Magenta") with { ImageHash = "Cyan-image" }];
        Assert.Contains("shows the same image as", Assert.Single(JobFindings.Of(copies[1], copies, LengthSystem.Metric)).Sentence, StringComparison.Ordinal);
        JobFile[] blank = [File("Cyan") with { Coverage = 0, ImageHash = "blank" }, File("Magenta") with { Coverage = 0, ImageHash = "blank" }];
        Assert.Contains("is blank", Assert.Single(JobFindings.Of(blank[1], blank, LengthSystem.Metric)).Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void AnotherSize_NeedsAReason_AndNamesTheOddOne()
    {
        JobFile[] job = [File("Cyan") with { LengthUm = 391_000 }, File("Magenta"), File("Yellow")];
        var found = Assert.Single(JobFindings.Of(job[0], job, LengthSystem.Metric));
        Assert.True(found.NeedsReason);
        Assert.Contains("Cyan.tif is 150 × 391 mm, but Magenta.tif is 150 × 390.1 mm", found.Sentence, StringComparison.Ordinal);
        Assert.Empty(JobFindings.Of(job[1], job, LengthSystem.Metric));
    }

    [Fact]
    public void AnotherResolutionAndASolid_AreOnlySaid()
    {
        JobFile[] job = [File("Cyan"), File("White") with { Coverage = 1, XPixelsPerMm = 50, YPixelsPerMm = 50 }];
        var found = JobFindings.Of(job[1], job, LengthSystem.Metric);
        Assert.Equal([false, false], found.Select(f => f.NeedsReason));
        Assert.Contains("is solid", found[0].Sentence, StringComparison.Ordinal);
        Assert.Contains("White.tif has 1\u00a0270 ppi, but Cyan.tif has 2\u00a0540 ppi", found[1].Sentence, StringComparison.Ordinal);
    }

    private static JobFile File(string colour) => new($"{colour}.tif", colour, colour, $"{colour}-image", 0.2, 150_000, 390_100, 100, 100);
}

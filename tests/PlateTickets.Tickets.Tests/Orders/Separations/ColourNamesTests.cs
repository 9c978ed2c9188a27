using PlateTickets.Tickets.Orders.Separations;

namespace PlateTickets.Tickets.Tests.Orders.Separations;

public class ColourNamesTests
{
    [Theory]
    [InlineData("job-01(Cyan).tif", "Cyan")]
    [InlineData("job-01(Harvest Orange).tif", "Harvest Orange")]
    [InlineData("job-01(Red%2FGold).tif", "Red/Gold")]
    [InlineData("job_MAGENTA.tif", "Magenta")]
    [InlineData("job-y.tiff", "Yellow")]
    [InlineData("job.Black.tif", "Black")]
    [InlineData("K.tif", "Black")]
    [InlineData("front_final.tif", "")]
    [InlineData("(  ).tif", "")]
    [InlineData("job(100%).tif", "100%")]
    public void FileName_NamesTheColour(string file, string colour) => Assert.Equal(colour, ColourNames.Find(file, null, null, null).Colour);

    [Fact]
    public void OrderOfTrust_FileNamePageNameInkNamesDescription()
    {
        Assert.Equal(("Cyan", ColourSource.FileName), ColourNames.Find("a(Cyan).tif", "Page", "Ink", "Description"));
        Assert.Equal(("Page", ColourSource.PageName), ColourNames.Find("a.tif", "Page", "Ink", "Description"));
        Assert.Equal(("Ink", ColourSource.InkNames), ColourNames.Find("a.tif", null, "Ink", "Description"));
        Assert.Equal(("Description", ColourSource.ImageDescription), ColourNames.Find("a.tif", "", " ", "Description"));
        Assert.Equal(("", ColourSource.None), ColourNames.Find("a.tif", null, null, "Made by a program with a very long description of itself"));
    }

    [Fact]
    public void ControlCharactersAndEndlessNames_AreTamed()
    {
        var name = ColourNames.Find("a.tif", "Gre\u0007en" + new string('x', 300), null, null).Colour;
        Assert.StartsWith("Green", name, StringComparison.Ordinal);
        Assert.Equal(ColourNames.Longest, name.Length);
    }

    [Theory]
    [InlineData("Cyan", true)]
    [InlineData("Deep Violet", true)]
    [InlineData("Varnish", false)]
    public void Swatch_OnlyWhereTheNameSaysAColour(string colour, bool known) => Assert.Equal(known, ColourNames.SwatchRgb(colour) is not null);
}

using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Recipes;

namespace PlateTickets.Tickets.Tests.Recipes;

public class RecipeCsvTests
{
    [Fact]
    public async Task Export_ReadBack_IsTheSame()
    {
        await using var room = await RoomFixture.CreateAsync();
        var (materials, released) = await RecipesAsync(room);
        var csv = RecipeCsv.Export(materials.Values.Select(m => (m, released(m.Id)!)));
        Assert.StartsWith("material,setting,value,unit\r\n", csv, StringComparison.Ordinal);
        Assert.Contains("Aster 170,FaceExposure.DoseMjPerCm2,10800,mJ/cm²\r\n", csv, StringComparison.Ordinal);
        var read = RecipeCsv.Import(new StringReader(csv), materials, released);
        Assert.Empty(read.Troubles);
        Assert.Equal(3, read.ByMaterial.Count);
        Assert.All(read.ByMaterial, r => Assert.Equal(released(r.Key), r.Value));
    }

    [Theory]
    [InlineData("material,setting,value,unit\nAster 170,FaceExposure.DoseMjPerCm2,11500,mJ/cm²\n")]
    [InlineData("\uFEFFmaterial;setting;value\r\n'Aster 170;FaceExposure.DoseMjPerCm2;11500\r\n")]
    public async Task ChangedRow_ChangesOnlyItsSetting(string csv)
    {
        await using var room = await RoomFixture.CreateAsync();
        var (materials, released) = await RecipesAsync(room);
        var read = RecipeCsv.Import(new StreamReader(new MemoryStream(System.Text.Encoding.UTF8.GetBytes(csv))), materials, released);
        Assert.Empty(read.Troubles);
        var (id, settings) = Assert.Single(read.ByMaterial);
        Assert.Equal(released(id)! with { FaceExposure = released(id)!.FaceExposure with { DoseMjPerCm2 = 11_500 } }, settings);
    }

    [Fact]
    public async Task WrongRows_AreNamedByLine_AndNothingIsTaken()
    {
        await using var room = await RoomFixture.CreateAsync();
        var (materials, released) = await RecipesAsync(room);
        var read = RecipeCsv.Import(
            new StringReader("material,setting,value\nAster 170,FaceExposure.DoseMjPerCm2,11000\nNobody 1,FaceExposure.DoseMjPerCm2,1\nAster 170,Colour,red\nAster 170,Imaging.ResolutionPpi,\"2540,5\"\nAster 170,Imaging.ResolutionPpi,\n"),
            materials, released);
        Assert.Empty(read.ByMaterial);
        Assert.Equal([3, 4, 5, 6], read.Troubles.Select(t => t.Line));
        Assert.Contains("There is no material “Nobody 1”", read.Troubles[0].Sentence, StringComparison.Ordinal);
        Assert.Contains("has no setting “Colour”", read.Troubles[1].Sentence, StringComparison.Ordinal);
        Assert.Contains("is not a number in ppi with a point for decimals", read.Troubles[2].Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task OtherFile_SaysWhichColumnsItNeeds()
    {
        await using var room = await RoomFixture.CreateAsync();
        var (materials, released) = await RecipesAsync(room);
        Assert.Contains("must name the columns", Assert.Single(RecipeCsv.Import(new StringReader("a,b\n1,2\n"), materials, released).Troubles).Sentence, StringComparison.Ordinal);
        Assert.Single(RecipeCsv.Import(new StringReader(""), materials, released).Troubles);
    }

    [Fact]
    public void NameThatASpreadsheetWouldCompute_IsGuarded()
    {
        var material = new Material { Name = "=1+1", ThicknessUm = 1700, BaseUm = 125, Process = WashoutProcess.Solvent };
        var csv = RecipeCsv.Export([(material, new RecipeSettings(
            new(new(1, 1), 100, 15, 1.2), new(new(1, 1), 2540, 80), new(new(1, 1), 1000), new(new(1, 1), WashoutProcess.Solvent, 150, null, null, 30), null, new(new(1, 1), 1, 1, true)))]);
        Assert.Contains("\r\n\"'=1+1\",", csv, StringComparison.Ordinal);
        Assert.DoesNotContain("\r\n=1+1", csv, StringComparison.Ordinal);
    }

    private static async Task<(IReadOnlyDictionary<int, Material> Materials, Func<int, RecipeSettings?> Released)> RecipesAsync(RoomFixture room)
    {
        var catalog = await room.Rooms.GetAsync();
        return (catalog.Materials, id => catalog.Released(id)?.Settings);
    }
}

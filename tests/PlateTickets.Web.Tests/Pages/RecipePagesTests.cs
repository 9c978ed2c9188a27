using AngleSharp.Dom;
using Bunit;
using Bunit.TestDoubles;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Recipes;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Tests.Pages;

public class RecipePagesTests : PageTest
{
    [Fact]
    public void Recipes_ShowReadingsTheirAgeingAndComputedTimes()
    {
        var page = Render<RecipesPage>();
        Assert.Equal(["Aster 170", "Birch 114", "Corvid 284"], page.FindAll(".recipe h3").Select(h => h.TextContent.Split('·')[0].Trim()));
        Assert.Contains("14.9 mW/cm²", page.Markup, StringComparison.Ordinal);
        Assert.Contains("Next reading due Sun 29 Nov", page.Markup, StringComparison.Ordinal);
        Assert.Contains("below the usable", page.Markup, StringComparison.Ordinal);
        Assert.Contains("mJ/cm² / 15.1 mW/cm², Frame 1, read 22 Nov 2026", page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void EachTime_OpensIntoItsFormulaAndInputs()
    {
        var how = Render<RecipesPage>().FindAll("details.how").First(d => d.TextContent.Contains("Frame 1, read", StringComparison.Ordinal));
        Assert.Contains("time = recipe's time × reference irradiance / irradiance", how.TextContent, StringComparison.Ordinal);
        Assert.Contains("Reference irradiance", how.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Inches_AreShownEverywhere_AndTypedBack()
    {
        await Services.GetRequiredService<SiteSettings>().SetUnitsAsync(LengthSystem.Inch, "test");
        Services.GetRequiredService<Viewer>().Choose(null, LengthSystem.Inch);
        Assert.Contains("Aster 170 · 0.067 in · solvent", Render<RecipesPage>().Find(".recipe h3").TextContent, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"\d mm\b", Render<StepTestPage>(p => p.Add(t => t.Id, 1)).Find("main, body, .step-result").TextContent);

        var recipe = Render<RecipePage>(p => p.Add(r => r.MaterialId, 1));
        Assert.Equal("5.906 in/min", Field(recipe, "Transport speed").GetAttribute("value"));
        await Field(recipe, "Transport speed").ChangeAsync(new ChangeEventArgs { Value = "6" });
        await Button(recipe, "Keep as draft").ClickAsync(new());
        var settings = (await Room.Rooms.GetAsync()).Revisions.Values.Single(r => r.State == RecipeState.Draft).Settings;
        Assert.Equal(152.4, settings.Washout.TransportMmPerMin!.Value, 1e-9);
        Assert.Equal(1.19, settings.BackExposure.FloorMm);
    }

    [Fact]
    public async Task Settings_ChooseUnitsForRoomAndPerson()
    {
        var page = Render<PlateTickets.Web.Settings.SettingsPage>();
        Assert.Contains("a plate is 1.70 mm thick", page.Markup, StringComparison.Ordinal);
        await page.FindAll("select")[0].ChangeAsync(new ChangeEventArgs { Value = "Inch" });
        Assert.Equal(LengthSystem.Inch, (await Room.Rooms.GetAsync()).Site.Units);
        Assert.Contains("a plate is 0.067 in thick", page.Markup, StringComparison.Ordinal);
        await page.FindAll("select")[1].ChangeAsync(new ChangeEventArgs { Value = "Metric" });
        Assert.Contains("a plate is 1.70 mm thick", page.Markup, StringComparison.Ordinal);
    }

    private static IElement Field(IRenderedComponent<RecipePage> page, string label) =>
        page.FindAll("label").First(l => l.TextContent.Trim() == label).QuerySelector("input")!;

    [Fact]
    public async Task StepTest_GivesTheTimeForTheFloor_AndBecomesADraft()
    {
        var page = Render<StepTestPage>(p => p.Add(t => t.Id, 1));
        Assert.Contains("1 min 40 s", page.Find(".answer").TextContent, StringComparison.Ordinal);
        Assert.Contains("95 % confidence", page.Find(".answer").TextContent, StringComparison.Ordinal);
        Assert.Equal(6, page.FindAll(".steps tbody tr").Count);
        Assert.NotEmpty(page.FindAll(".chart svg path, .chart svg polyline"));

        await page.Find("[aria-label='Wanted floor']").ChangeAsync(new ChangeEventArgs { Value = "60 mil" });
        Assert.Contains("outside what was tested", page.Markup, StringComparison.Ordinal);
        await Button(page, "Draft a recipe with this time").ClickAsync(new());
        Assert.EndsWith(Urls.Recipe("1"), Services.GetRequiredService<BunitNavigationManager>().Uri, StringComparison.Ordinal);

        var recipe = Render<RecipePage>(p => p.Add(r => r.MaterialId, 1));
        Assert.Contains("lies outside what step test 1 tested", recipe.Find(".flag").TextContent, StringComparison.Ordinal);
        await Button(recipe, "Release …").ClickAsync(new());
        await Button(recipe, "Release it").ClickAsync(new());
        Assert.Contains("It can be released with a reason only", recipe.Find(".refusals").TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("9 mm", "is not between the base")]
    [InlineData("thick", "is no length")]
    public async Task StepTest_ImpossibleFloor_IsRefusedInWords(string floor, string words)
    {
        var page = Render<StepTestPage>(p => p.Add(t => t.Id, 1));
        await page.Find("[aria-label='Wanted floor']").ChangeAsync(new ChangeEventArgs { Value = floor });
        Assert.Contains(words, page.Find(".refusals").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task NewStepTest_ThatGivesNoCurve_IsExplained_AndKeepsWhatWasTyped()
    {
        var page = Render<StepTestsPage>();
        foreach (var (step, seconds, floor) in new[] { (1, "40", "1.2"), (2, "60", "1.0 mm"), (3, "80", "0.8") })
        {
            await page.Find($"[aria-label='Time of step {step} in seconds']").ChangeAsync(new ChangeEventArgs { Value = seconds });
            await page.Find($"[aria-label='Floor of step {step}']").ChangeAsync(new ChangeEventArgs { Value = floor });
        }

        await Button(page, "Fit the curve").ClickAsync(new());
        Assert.Contains("The floors fall with longer exposure", page.Find(".refusals").TextContent, StringComparison.Ordinal);
        Assert.Equal("1.0 mm", page.Find("[aria-label='Floor of step 2']").GetAttribute("value"));
    }

    [Fact]
    public async Task Recipe_ChangedSettings_BecomeADraftThatIsComparedAndReleased()
    {
        var page = Render<RecipePage>(p => p.Add(r => r.MaterialId, 1));
        var dose = page.FindAll("fieldset").Single(f => f.QuerySelector("legend")!.TextContent == "Face exposure").QuerySelector("input")!;
        await dose.ChangeAsync(new ChangeEventArgs { Value = "11500" });
        await Button(page, "Keep as draft").ClickAsync(new());
        var changed = Assert.Single(page.FindAll(".compare tr.changed"));
        Assert.Contains("11\u00a0500 mJ/cm²", changed.TextContent, StringComparison.Ordinal);

        await Button(page, "Release …").ClickAsync(new());
        await page.Find("[aria-label=Release] input").ChangeAsync(new ChangeEventArgs { Value = "finer highlights" });
        await Button(page, "Release it").ClickAsync(new());
        Assert.Contains("Revision 3 is released.", page.Find(".told").TextContent, StringComparison.Ordinal);
        Assert.Equal(3, (await Room.Rooms.GetAsync()).Released(1)!.Number);
    }

    [Fact]
    public async Task CsvWithOneChange_MakesADraft_AndOneWithAMistakeNothing()
    {
        var page = Render<RecipesPage>();
        var file = page.FindComponent<Microsoft.AspNetCore.Components.Forms.InputFile>();
        file.UploadFiles(InputFileContent.CreateFromText("material,setting,value\nAster 170,FaceExposure.DoseMjPerCm2,many\n", "recipes.csv"));
        page.WaitForAssertion(() => Assert.Contains("Line 2: Aster 170, FaceExposure.DoseMjPerCm2: “many” is not a number in mJ/cm²", page.Find(".refusals").TextContent, StringComparison.Ordinal));
        file.UploadFiles(InputFileContent.CreateFromText("material,setting,value\nAster 170,FaceExposure.DoseMjPerCm2,-5\n", "recipes.csv"));
        page.WaitForAssertion(() => Assert.Contains("Aster 170: The dose is -5 mJ/cm²", page.Find(".refusals").TextContent, StringComparison.Ordinal));
        Assert.DoesNotContain((await Room.Rooms.GetAsync()).Revisions.Values, r => r.State == PlateTickets.Tickets.Recipes.RecipeState.Draft);

        file.UploadFiles(InputFileContent.CreateFromText("material,setting,value\nAster 170,FaceExposure.DoseMjPerCm2,11500\n", "recipes.csv"));
        page.WaitForAssertion(() => Assert.Contains("Drafts made for Aster 170", page.Markup, StringComparison.Ordinal));
        Assert.Single((await Room.Rooms.GetAsync()).Revisions.Values, r => r.State == PlateTickets.Tickets.Recipes.RecipeState.Draft);
    }

    private static IElement Button<T>(IRenderedComponent<T> page, string text)
        where T : IComponent => page.FindAll("button").Single(b => b.TextContent.Trim() == text);
}

using Bunit;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Handovers;
using PlateTickets.Web.Handovers;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Tests.Pages;

public class HandoverPageTests : PageTest
{
    [Fact]
    public async Task Notes_AreSavedWhileTyped_AndAreThereAfterAReload()
    {
        var page = Shown();
        await TypeAsync(page, "Frame 2 leaks.");
        Assert.Contains("kept in this browser", page.Find("[data-testid=saved]").TextContent, StringComparison.Ordinal);
        Saved(page);
        Assert.Equal("Frame 2 leaks.", Shown().Find("textarea").GetAttribute("value"));
    }

    [Fact]
    public async Task UnsavedDraftOfThisBrowser_IsOffered_AndPutIntoTheNotes()
    {
        JSInterop.Setup<string?>("plateRoom.draftOf", _ => true).SetResult("typed before the power cut");
        var page = Shown();
        page.WaitForAssertion(() => Assert.Contains("typed before the power cut", page.Find(".kept-draft").TextContent, StringComparison.Ordinal));
        await page.InvokeAsync(() => page.Find(".kept-draft button").Click());
        Saved(page, typed: false);
        Assert.Equal("typed before the power cut", page.Find("textarea").GetAttribute("value"));
    }

    [Fact]
    public async Task TwoWriteAtOnce_BothTextsAreShown_AndKept()
    {
        var page = Shown();
        var shift = (await Room.Handovers.OpenAsync()).Single(o => o.Shift.EndUtc > Room.Now).Shift;
        await Room.Handovers.SaveNotesAsync(shift, "theirs", OpenHandover.NotWritten, "Ada");
        await TypeAsync(page, "mine");
        Room.Clock.Advance(TimeSpan.FromSeconds(2));
        page.WaitForAssertion(() => Assert.Contains("Ada changed these notes", page.Find(".refusals").TextContent, StringComparison.Ordinal));
        Assert.Equal("theirs", page.Find(".their-notes").TextContent);
        Assert.True(page.FindAll(".close-shift button")[0].HasAttribute("disabled"));
        await page.InvokeAsync(() => page.FindAll(".refusals button")[0].Click());
        page.WaitForAssertion(() => Assert.Empty(page.FindAll(".refusals")));
        Assert.Equal("theirs\n\nmine", (await Room.Handovers.FindAsync(shift))!.Notes);
    }

    [Fact]
    public async Task Shift_IsClosedAfterAQuestion_AndConfirmedByAnotherPerson()
    {
        var page = Shown();
        await TypeAsync(page, "All quiet.");
        Saved(page);
        await page.InvokeAsync(() => page.FindAll(".close-shift button")[0].Click());
        Assert.Contains("The shift goes on until 14:00", page.Find(".close-shift .early").TextContent, StringComparison.Ordinal);
        await page.InvokeAsync(() => page.FindAll(".close-shift button")[0].Click());
        page.WaitForAssertion(() => Assert.Contains("is handed over", page.Find(".applied").TextContent, StringComparison.Ordinal));
        var id = (await Room.Handovers.EarlierAsync(0, 1)).Lines[0].Id;

        var own = Render<EarlierHandoverPage>(p => p.Add(h => h.Id, id));
        Assert.Empty(own.FindAll(".confirm-handover"));
        Services.GetRequiredService<Viewer>().SignedIn("Bruno", Rights.Of(Role.Operator));
        var other = Render<EarlierHandoverPage>(p => p.Add(h => h.Id, id));
        await other.InvokeAsync(() => other.Find(".confirm-handover textarea").Change("Seen."));
        await other.InvokeAsync(() => other.Find(".confirm-handover button").Click());
        other.WaitForAssertion(() => Assert.Contains("Confirmed by Bruno", other.Find(".shift-line").TextContent, StringComparison.Ordinal));
        Assert.Contains("Seen.", other.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void WhoMayOnlyLook_ReadsTheNotes_AndCannotWrite()
    {
        Services.GetRequiredService<Viewer>().SignedIn("Csr", Rights.Of(Role.Csr));
        var page = Shown(field: false);
        Assert.Empty(page.FindAll("textarea, .close-shift"));
        Assert.Equal("No notes yet.", page.Find(".notes-text").TextContent);
    }

    [Fact]
    public void HandoverThatIsNone_SaysSo()
    {
        var page = Render<EarlierHandoverPage>(p => p.Add(h => h.Id, 77));
        Assert.Equal("No such handover", page.Find("h1").TextContent);
    }

    private IRenderedComponent<HandoverPage> Shown(bool field = true)
    {
        // The earlier shifts of the last day could be handed over too; the page opens with the one at work.
        var page = Render<HandoverPage>();
        page.WaitForElement(field ? "textarea" : ".notes-text");
        Assert.Contains("Wed 25 Nov 2026, 06:00 – 14:00", page.Find(".shift-line").TextContent, StringComparison.Ordinal);
        return page;
    }

    private static Task TypeAsync(IRenderedComponent<HandoverPage> page, string text) => page.InvokeAsync(() => page.Find("textarea").Input(text));

    private void Saved(IRenderedComponent<HandoverPage> page, bool typed = true)
    {
        if (typed)
        {
            Room.Clock.Advance(TimeSpan.FromSeconds(2));
        }

        page.WaitForAssertion(() => Assert.StartsWith("Saved by Tester", page.Find("[data-testid=saved]").TextContent, StringComparison.Ordinal));
    }
}

using Bunit;
using PlateTickets.Tickets.Orders;
using PlateTickets.Web.Orders;

namespace PlateTickets.Web.Tests.Pages;

public class ArrivedPageTests : PageTest
{
    [Fact]
    public void Empty_SaysThatNothingWaits_AndHowToSetTheFolder()
    {
        var page = Render<ArrivedPage>();
        Assert.Contains("No file waits for you", page.Markup, StringComparison.Ordinal);
        Assert.Contains("Room:DropFolder", page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task BadFile_ShowsItsError_AndIsSetAsideWithAReasonOnly()
    {
        var file = Path.Combine(Path.GetTempPath(), $"notes-{Guid.NewGuid():N}.tif");
        await File.WriteAllTextAsync(file, "These are notes.");
        var page = Render<ArrivedPage>();
        await Arrivals.TakeAsync(file);
        await Arrivals.DecideAsync();
        page.WaitForAssertion(() => Assert.Contains("is not a TIFF file", page.Find(".bad").TextContent, StringComparison.Ordinal));
        await page.InvokeAsync(() => page.FindAll("button").Single(b => b.TextContent.Trim() == "Set aside").Click());
        page.WaitForAssertion(() => Assert.Contains("Say why the file is set aside", page.Find(".refusals").TextContent, StringComparison.Ordinal));
        await page.InvokeAsync(() => page.Find(".where input").Change("sent by mistake"));
        await page.InvokeAsync(() => page.FindAll("button").Single(b => b.TextContent.Trim() == "Set aside").Click());
        page.WaitForAssertion(() => Assert.Contains("No file waits for you", page.Markup, StringComparison.Ordinal));
    }

    [Fact]
    public async Task EarlierJob_FillsOnlyWhatIsEmpty()
    {
        var room = await Room.Rooms.GetAsync();
        var press = room.Presses[0];
        var job = new EarlierJob("T1", 1, "Customer", "Title", press.Id, press.Cylinders[1].RepeatUm, press.UsualMaterialId, 2, Room.Now, 1);
        var form = new OrderForm { Title = "Typed before" };
        form.FillFrom(job, room);
        Assert.Equal(("Customer", "Typed before", press, press.Cylinders[1], 2), (form.CustomerText, form.Title, form.Press, form.Cylinder, form.Copies));
    }
}

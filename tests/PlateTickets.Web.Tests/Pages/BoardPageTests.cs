using Bunit;
using PlateTickets.Tickets.Board;
using PlateTickets.Web.Board;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Tests.Pages;

public class BoardPageTests : PageTest
{
    [Fact]
    public async Task Sheet_MovesOnTheBoardByItself_WhenItIsScannedElsewhere()
    {
        var sheet = (await Room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var page = Render<BoardPage>();
        page.WaitForAssertion(() => Assert.NotNull(page.Find("[aria-label='Back exposure']").QuerySelector($"[data-sheet={sheet}]")));
        await Room.PassAsync(sheet, "frame-1");
        page.WaitForAssertion(() => Assert.NotNull(page.Find("[aria-label='Imaging']").QuerySelector($"[data-sheet={sheet}]")));
        Assert.Null(page.Find("[aria-label='Back exposure']").QuerySelector($"[data-sheet={sheet}]"));
    }

    [Fact]
    public async Task LateSheet_IsNamedAboveTheColumns()
    {
        await Room.OrderAsync(["Cyan"], dueHours: 1);
        var page = Render<BoardPage>();
        page.WaitForAssertion(() => Assert.Contains("Late by", page.Find(".urgent").TextContent, StringComparison.Ordinal));
        Assert.Equal("1", page.Find(".sums .late dd").TextContent);
    }

    [Fact]
    public void EmptyBoard_SaysSo()
    {
        var page = Render<BoardPage>();
        Assert.Contains("No sheet is open", page.Find(".empty").TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Lateness.Late, -75, "Late by 1 h 15 min", "rect")]
    [InlineData(Lateness.AtRisk, 30, "At risk, 30 min spare", "path")]
    [InlineData(Lateness.OnTime, 300, "In time, 5 h spare", "circle")]
    public void Lateness_IsAWordAndAShape_NotOnlyAColour(Lateness lateness, int minutes, string words, string shape)
    {
        var mark = Render<LatenessMark>(p => p.Add(m => m.Of, lateness).Add(m => m.Slack, TimeSpan.FromMinutes(minutes)));
        Assert.Equal(words, mark.Find("span").TextContent.Trim());
        Assert.NotNull(mark.Find($"svg > {shape}"));
    }
}

using PlateTickets.Process;
using PlateTickets.Web.Orders;

namespace PlateTickets.Web.Tests.Pages;

public class RepeatFormTests
{
    [Fact]
    public void Repeat_ByItsLength_ByTeeth_ByTheBareCylinder()
    {
        Assert.Equal(400, new RepeatForm { Repeat = "400" }.Millimetres(1.7), 1e-9);
        Assert.Equal(381, new RepeatForm { Repeat = "15 in" }.Millimetres(1.7), 1e-9);
        // 120 teeth of 1/8 in are 15 in (common practice).
        Assert.Equal(381, new RepeatForm { Basis = RepeatBasis.TeethAndPitch, Teeth = 120 }.Millimetres(1.7), 1e-9);
        Assert.Equal(Math.PI * 127, new RepeatForm { Basis = RepeatBasis.TeethAndModule, Teeth = 127 }.Millimetres(1.7), 1e-9);
        Assert.Equal(Math.PI * (120 + 4.5), new RepeatForm { Basis = RepeatBasis.BareCylinder, Diameter = "120 mm", Tape = "0.55" }.Millimetres(1.7), 1e-9);
    }

    [Theory]
    [InlineData("long", "The repeat: “long” is no length")]
    [InlineData("", "The repeat is missing")]
    public void NoLength_IsRefused(string repeat, string words) => Assert.Contains(
        words, Assert.Throws<PlateRoomException>(() => new RepeatForm { Repeat = repeat }.Millimetres(1.7)).Message, StringComparison.Ordinal);
}

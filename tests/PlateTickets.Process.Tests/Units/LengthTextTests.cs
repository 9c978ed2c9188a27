using PlateTickets.Process.Units;

namespace PlateTickets.Process.Tests;

public class LengthTextTests
{
    // The inch is 25.4 mm exactly (international yard and pound agreement, 1959).
    [Theory]
    [InlineData("1.7", 1.7)]
    [InlineData("1,7 mm", 1.7)]
    [InlineData("0.067 in", 1.7018)]
    [InlineData("67 mil", 1.7018)]
    [InlineData("67mil", 1.7018)]
    [InlineData(" 1700 µm ", 1.7)]
    [InlineData("15\"", 381)]
    [InlineData("38.1 cm", 381)]
    [InlineData(".067 inch", 1.7018)]
    public void Length_InAnyUsualUnit(string text, double millimetres) => Assert.Equal(millimetres, LengthText.Millimetres(text, "The length"), 1e-9);

    [Theory]
    [InlineData("")]
    [InlineData(null)]
    [InlineData("thick")]
    [InlineData("1.2.3")]
    [InlineData("1.7 furlongs")]
    [InlineData("NaN")]
    [InlineData("1e5 mm")]
    public void OtherTexts_AreRefusedWithAnExample(string? text) => Refusals.Says("type it like 1.19".Replace("type", string.IsNullOrEmpty(text) ? "type" : "Type", StringComparison.Ordinal), () => LengthText.Millimetres(text, "The length"));
}

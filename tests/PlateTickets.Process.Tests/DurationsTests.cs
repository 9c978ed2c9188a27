namespace PlateTickets.Process.Tests;

public class DurationsTests
{
    [Theory]
    [InlineData(0, "0 s")]
    [InlineData(45, "45 s")]
    [InlineData(59.6, "1 min")]
    [InlineData(100, "1 min 40 s")]
    [InlineData(720, "12 min")]
    [InlineData(760, "12 min 40 s")]
    [InlineData(3600, "1 h")]
    [InlineData(5400, "1 h 30 min")]
    [InlineData(5429, "1 h 30 min")]
    [InlineData(7 * 86400, "7 d")]
    [InlineData(183600, "2 d 3 h")]
    public void ForPeople_SaysItShortly(double seconds, string text) => Assert.Equal(text, Durations.ForPeople(seconds));

    [Theory]
    [InlineData(10_800, 1, "10\u00a0800")]
    [InlineData(14.5, 1, "14.5")]
    [InlineData(0.05, 1, "0.1")]
    [InlineData(1234567.891, 2, "1\u00a0234\u00a0567.89")]
    public void Numbers_AreGrouped(double value, int decimals, string text) => Assert.Equal(text, Numbers.ForPeople(value, decimals));
}

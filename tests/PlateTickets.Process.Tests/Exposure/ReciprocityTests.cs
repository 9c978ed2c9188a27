using PlateTickets.Process.Exposure;

namespace PlateTickets.Process.Tests.Exposure;

public class ReciprocityTests
{
    // Exposure = intensity x time (PRINTING United Alliance glossary); 10 mW/cm2 for 600 s are 6 000 mJ/cm2 = 6 J/cm2.
    [Fact]
    public void Dose_IsIrradianceTimesTime() => Assert.Equal(6000, Reciprocity.DoseMjPerCm2(10, 600), 9);

    // t' = t I0 / I: lamps at 70 % need 1/0.7 = 1.4286 of the time, at 80 % 1.25 of it (computed).
    [Theory]
    [InlineData(0.70, 1.4286)]
    [InlineData(0.80, 1.25)]
    public void WeakerLamps_NeedTheInverseTime(double share, double factor) =>
        Assert.Equal(factor, Reciprocity.ScaledSeconds(1, 15, 15 * share), 0.00005);

    [Fact]
    public void TimeTimesIrradiance_IsTheDoseAgain()
    {
        var random = new Random(2);
        for (var i = 0; i < 2000; i++)
        {
            var dose = 1 + (20_000 * random.NextDouble());
            var irradiance = 0.1 + (60 * random.NextDouble());
            var seconds = Reciprocity.Seconds(dose, irradiance);
            Assert.Equal(dose, Reciprocity.DoseMjPerCm2(irradiance, seconds), dose * 1e-12);
            Assert.True(Reciprocity.Seconds(dose, irradiance + 0.1) < seconds);
            Assert.True(Reciprocity.Seconds(dose + 1, irradiance) > seconds);
        }
    }

    [Theory]
    [InlineData(0, 10, "The dose is 0 mJ/cm²")]
    [InlineData(100, 0, "The irradiance is 0 mW/cm²")]
    [InlineData(100, -1, "The irradiance is -1 mW/cm²")]
    [InlineData(double.PositiveInfinity, 1, "The dose is")]
    public void ImpossibleValues_AreRefused(double dose, double irradiance, string words) =>
        Refusals.Says(words, () => Reciprocity.Seconds(dose, irradiance));
}

using PlateTickets.Travelers.Codes;

namespace PlateTickets.Travelers.Tests;

public class SheetCodesTests
{
    // ISO/IEC 15417: bar and space widths of the 107 symbol characters, as the figure for each value 0 to 106 (stop with its final bar).
    private static readonly string[] Patterns =
        ("212222 222122 222221 121223 121322 131222 122213 122312 132212 221213 221312 231212 112232 122132 122231 113222 123122 123221 223211 221132 " +
        "221231 213212 223112 312131 311222 321122 321221 312212 322112 322211 212123 212321 232121 111323 131123 131321 112313 132113 132311 211313 " +
        "231113 231311 112133 112331 132131 113123 113321 133121 313121 211331 231131 213113 213311 213131 311123 311321 331121 312113 312311 332111 " +
        "314111 221411 431111 111224 111422 121124 121421 141122 141221 112214 112412 122114 122411 142112 142211 241211 221114 413111 241112 134111 " +
        "111242 121142 121241 114212 124112 124211 411212 421112 421211 212141 214121 412121 111143 111341 131141 114113 114311 411113 411311 113141 " +
        "114131 311141 411131 211412 211214 211232 2331112").Split(' ');

    [Theory]
    [InlineData("S2K3M9Q4B")]
    [InlineData("T00000000")]
    [InlineData("SXXXXXXX5")]
    public void Code128_HasTheCheckSymbolOfTheStandard(string text)
    {
        var values = Values(SheetCodes.Code128(text));
        Assert.InRange(values[0], 103, 105);
        Assert.Equal(106, values[^1]);
        // Check symbol: (start + sum of value x position) modulo 103.
        var sum = values[0] + values[1..^2].Select((v, i) => v * (i + 1)).Sum();
        Assert.Equal(sum % 103, values[^2]);
    }

    [Fact]
    public void Code128_NineCharacters_AreAtMost134Modules() => Assert.InRange(SheetCodes.Code128("SAB3M9QTB").Length, 100, 134);

    [Fact]
    public void Qr_NineCharacters_AreVersion1WithItsThreeFinders()
    {
        var modules = SheetCodes.Qr("S2K3M9Q4B");
        Assert.Equal(21, modules.GetLength(0));
        foreach (var (row, column) in new[] { (0, 0), (0, 14), (14, 0) })
        {
            // ISO/IEC 18004: a finder is a 3 x 3 dark square in a light ring in a 7 x 7 dark ring.
            Assert.True(modules[row, column] && modules[row + 6, column + 6] && modules[row + 3, column + 3]);
            Assert.False(modules[row + 1, column + 1]);
        }
    }

    private static List<int> Values(bool[] modules)
    {
        var widths = new List<int>();
        for (var i = 0; i < modules.Length;)
        {
            var start = i;
            while (i < modules.Length && modules[i] == modules[start])
            {
                i++;
            }

            widths.Add(i - start);
        }

        var values = new List<int>();
        for (var i = 0; i < widths.Count;)
        {
            var take = widths.Count - i == 7 ? 7 : 6;
            values.Add(Array.IndexOf(Patterns, string.Concat(widths.Skip(i).Take(take))));
            i += take;
        }

        return values;
    }
}

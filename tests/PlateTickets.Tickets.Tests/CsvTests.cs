using System.Globalization;

namespace PlateTickets.Tickets.Tests;

public class CsvTests
{
    /// <summary>The first characters are those of OWASP's page “CSV Injection”; the quoting is RFC 4180, section 2, rules 5 to 7.</summary>
    [Theory]
    [InlineData("=1+2", "\"'=1+2\"")]
    [InlineData("+1+2", "\"'+1+2\"")]
    [InlineData("-2+3+cmd|' /C calc'!A0", "\"'-2+3+cmd|' /C calc'!A0\"")]
    [InlineData("@SUM(A1)", "\"'@SUM(A1)\"")]
    [InlineData("\tx", "\"'\tx\"")]
    [InlineData("＝1", "\"'＝1\"")]
    [InlineData("=a\"b", "\"'=a\"\"b\"")]
    [InlineData("-12.5", "-12.5")]
    [InlineData("-12.5\n", "\"'-12.5\n\"")]
    [InlineData("1E-05", "1E-05")]
    [InlineData("a=b", "a=b")]
    [InlineData("a,b", "\"a,b\"")]
    [InlineData("a\"b", "\"a\"\"b\"")]
    [InlineData("a\r\nb", "\"a\r\nb\"")]
    [InlineData("", "")]
    public void Cell_IsQuotedAndGuarded(string cell, string written)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var csv = new Csv(text))
        {
            csv.Row(cell, "end");
        }

        Assert.Equal(written + ",end\r\n", text.ToString());
    }
}

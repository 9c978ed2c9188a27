using System.Net;
using System.Text;

namespace PlateTickets.Web.Tests;

public sealed class AuditApiTests(HttpRoom room) : IClassFixture<HttpRoom>
{
    [Fact]
    public async Task Trail_IsSentAsCsv_WithTheFiltersOfItsPage()
    {
        using var entered = await room.EnterOrderAsync();
        Assert.Equal(HttpStatusCode.Created, entered.StatusCode);
        using var reply = await room.Http.GetAsync("/api/v1/audit.csv?record=Order&field=added&from=2026-01-01T00:00:00Z");
        Assert.Equal(HttpStatusCode.OK, reply.StatusCode);
        Assert.Equal("text/csv", reply.Content.Headers.ContentType?.MediaType);
        Assert.Equal("audit.csv", reply.Content.Headers.ContentDisposition?.FileName);
        var bytes = await reply.Content.ReadAsByteArrayAsync();
        Assert.Equal([0xEF, 0xBB, 0xBF], bytes[..3]);
        var lines = Encoding.UTF8.GetString(bytes[3..]).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal("number,time (UTC),who,record,key,field,from,to,sha256", lines[0]);
        Assert.True(lines.Length > 1);
        Assert.All(lines[1..], l => Assert.Contains(",Order,T", l, StringComparison.Ordinal));
        Assert.All(lines[1..], l => Assert.Contains(",(new),,,", l, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("from=2026-02-01T00:00:00Z&to=2026-01-01T00:00:00Z")]
    [InlineData("from=yesterday")]
    public async Task SenselessTime_IsABadRequest(string query)
    {
        using var reply = await room.Http.GetAsync("/api/v1/audit.csv?" + query);
        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
        Assert.Equal("application/problem+json", reply.Content.Headers.ContentType?.MediaType);
    }
}

using System.Net;
using System.Net.Http.Headers;
using System.Text.Json;
using PlateTickets.Tests.Shared;

namespace PlateTickets.Web.Tests;

/// <summary>Previews, ink and plates as CSV over HTTP, from Ghostscript's separations.</summary>
public sealed class FilesApiTests(HttpRoom room) : IClassFixture<HttpRoom>
{
    [Fact]
    public async Task Separations_BringInkBoxAndPreview_AndTheTicketKeepsThem()
    {
        var folder = Directory.CreateTempSubdirectory("files-").FullName;
        try
        {
            var files = GhostscriptJob.Make(folder, "job", widthMm: 150, heightMm: 390.104, ppi: 300).Select(f => (Path.GetFileName(f), File.ReadAllBytes(f))).ToList();
            var number = await NewOrderAsync();
            using var form = HttpRoom.Form(files);
            using var sent = await room.Http.PostAsync($"/api/v1/orders/{number}/separations", form);
            Assert.True(sent.IsSuccessStatusCode, await sent.Content.ReadAsStringAsync());
            var cyan = (await Json(sent)).GetProperty("separations").EnumerateArray().Single(s => s.GetProperty("colour").GetString() == "Cyan");
            // Of a page of 425.2 x 1105.81 points, 150 x 220 are cyan from 40, 40 at the lower left, less 50 x 120 that magenta knocks out.
            Assert.Equal(((150 * 220) - (50 * 120)) / (425.2 * 1105.81), cyan.GetProperty("coverage").GetDouble(), 2e-3);
            Assert.Equal(((150 * 220) - (50 * 120)) / 72.0 / 72.0 * 2.54 * 2.54, cyan.GetProperty("inkCm2").GetDouble(), 0.5);
            var box = cyan.GetProperty("imageBox");
            Assert.Equal(40 / 72.0 * 25.4, box.GetProperty("leftMm").GetDouble(), 0.2);
            Assert.Equal((1105.81 - 260) / 72.0 * 25.4, box.GetProperty("topMm").GetDouble(), 0.2);
            Assert.Empty(cyan.GetProperty("warnings").EnumerateArray());

            var preview = cyan.GetProperty("preview").GetString()!;
            using var first = await room.Http.GetAsync(preview);
            Assert.Equal("image/png", first.Content.Headers.ContentType!.MediaType);
            Assert.Contains("immutable", first.Headers.CacheControl!.ToString(), StringComparison.Ordinal);
            using var again = new HttpRequestMessage(HttpMethod.Get, preview);
            again.Headers.IfNoneMatch.Add(new EntityTagHeaderValue(first.Headers.ETag!.Tag));
            using var unchanged = await room.Http.SendAsync(again);
            Assert.Equal(HttpStatusCode.NotModified, unchanged.StatusCode);
            using var plain = await room.Http.GetAsync(preview.Split('?')[0]);
            Assert.Equal("no-cache, private", plain.Headers.CacheControl!.ToString());

            using var ticket = await room.Http.GetAsync($"/api/v1/tickets/{number}");
            Assert.All((await Json(ticket)).GetProperty("plates").EnumerateArray(), p => Assert.True(p.GetProperty("inkCm2").GetDouble() > 0));
            var csv = await room.Http.GetStringAsync($"/api/v1/tickets/{number}/plates.csv");
            Assert.Equal(files.Count + 2, csv.Split("\r\n").Length);
            Assert.Contains($"{number},Northmere Dairy,Butter foil 250 g,", csv, StringComparison.Ordinal);
            Assert.Contains(number, await room.Http.GetStringAsync("/api/v1/plates.csv?from=2026-11-01T00:00:00Z&to=2026-12-01T00:00:00Z"), StringComparison.Ordinal);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task CopyUnderTwoColours_IsRefusedWithoutAReason()
    {
        var folder = Directory.CreateTempSubdirectory("files-").FullName;
        try
        {
            var cyan = await File.ReadAllBytesAsync(GhostscriptJob.Make(folder, "job", widthMm: 150, heightMm: 390.104, ppi: 300).Single(f => f.Contains("(Cyan)", StringComparison.Ordinal)));
            var number = await NewOrderAsync();
            using var form = HttpRoom.Form(("a(Cyan).tif", cyan), ("a(Magenta).tif", cyan));
            using var refused = await room.Http.PostAsync($"/api/v1/orders/{number}/separations", form);
            Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
            Assert.Contains("is the same file as a(Cyan).tif", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
            using var form2 = HttpRoom.Form(("a(Cyan).tif", cyan), ("a(Magenta).tif", cyan));
            using var taken = await room.Http.PostAsync($"/api/v1/orders/{number}/separations?accept=two+hits", form2);
            Assert.Equal(HttpStatusCode.OK, taken.StatusCode);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Theory]
    [InlineData("/api/v1/separations/999999/preview.png", HttpStatusCode.NotFound)]
    [InlineData("/api/v1/arrivals/999999/preview.png", HttpStatusCode.NotFound)]
    [InlineData("/api/v1/tickets/T00000000/plates.csv", HttpStatusCode.NotFound)]
    [InlineData("/api/v1/plates.csv?from=2026-12-01T00:00:00Z&to=2026-11-01T00:00:00Z", HttpStatusCode.BadRequest)]
    [InlineData("/api/v1/plates.csv", HttpStatusCode.BadRequest)]
    public async Task WhatIsNotThere_IsAProblem(string address, HttpStatusCode status)
    {
        using var reply = await room.Http.GetAsync(address);
        Assert.Equal(status, reply.StatusCode);
        Assert.Equal("application/problem+json", reply.Content.Headers.ContentType!.MediaType);
    }

    private async Task<string> NewOrderAsync()
    {
        using var entered = await room.EnterOrderAsync();
        return (await Json(entered)).GetProperty("number").GetString()!;
    }

    private static async Task<JsonElement> Json(HttpResponseMessage reply) => JsonDocument.Parse(await reply.Content.ReadAsStringAsync()).RootElement;
}

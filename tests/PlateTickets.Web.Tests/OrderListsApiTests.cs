using System.Net;
using System.Text;
using System.Text.Json;

namespace PlateTickets.Web.Tests;

/// <summary>Orders out and in as CSV over HTTP.</summary>
public sealed class OrderListsApiTests(HttpRoom room) : IClassFixture<HttpRoom>
{
    [Fact]
    public async Task Example_IsSentBack_OnceWithAKey_AndListed()
    {
        var example = await room.Http.GetStringAsync("/api/v1/orders/example.csv");
        using var check = await SendAsync(example, "?check=true");
        Assert.Equal(HttpStatusCode.OK, check.StatusCode);
        Assert.Empty((await JsonAsync(check)).GetProperty("numbers").EnumerateArray());

        var key = Guid.NewGuid().ToString("N");
        using var first = await SendAsync(example, key: key);
        Assert.True(first.IsSuccessStatusCode, await first.Content.ReadAsStringAsync());
        var numbers = (await JsonAsync(first)).GetProperty("numbers").EnumerateArray().Select(n => n.GetString()!).ToList();
        Assert.Equal(2, numbers.Count);
        using var again = await SendAsync(example, key: key);
        Assert.Equal("true", again.Headers.GetValues("Idempotency-Replayed").Single());
        Assert.Equal(numbers, (await JsonAsync(again)).GetProperty("numbers").EnumerateArray().Select(n => n.GetString()!));

        var csv = await room.Http.GetStringAsync("/api/v1/orders.csv?search=" + Uri.EscapeDataString("Job by"));
        Assert.Equal(2, csv.Split("\r\n").Count(l => l.Contains("A customer,Job by ", StringComparison.Ordinal)));
        using var twin = await SendAsync(example, "?check=true");
        Assert.Contains("looks like order", (await JsonAsync(twin)).GetProperty("warnings")[0].GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task WrongList_IsRefusedByLineAndColumn_AndNothingIsHalfEntered()
    {
        var example = await room.Http.GetStringAsync("/api/v1/orders/example.csv");
        var lines = example.TrimEnd().Split("\r\n");
        using var answer = await SendAsync(string.Join("\r\n", [lines[0], lines[1].Replace("Job by cylinder", "Never entered", StringComparison.Ordinal), lines[2].Replace("Press", "Prass", StringComparison.Ordinal)]));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.StartsWith("There is no press", (await JsonAsync(answer)).GetProperty("errors").GetProperty("line 3, press")[0].GetString(), StringComparison.Ordinal);
        Assert.DoesNotContain("Never entered", await room.Http.GetStringAsync("/api/v1/orders.csv"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task OtherTypes_AndUnknownChoices_AreRefused()
    {
        using var json = await room.Http.PostAsync("/api/v1/orders.csv", new StringContent("{}", Encoding.UTF8, "application/json"));
        Assert.Equal(HttpStatusCode.UnsupportedMediaType, json.StatusCode);
        using var separator = await SendAsync("a", "?separator=pipe");
        Assert.Equal(HttpStatusCode.BadRequest, separator.StatusCode);
        // Sent only when asked for: else the answer can come in the middle of sending, and the connection ends.
        using var large = await SendAsync(new string('a', 3 << 20), ask: true);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, large.StatusCode);
    }

    private async Task<HttpResponseMessage> SendAsync(string csv, string query = "", string? key = null, bool ask = false)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/orders.csv" + query) { Content = new StringContent(csv, Encoding.UTF8, "text/csv") };
        request.Headers.ExpectContinue = ask;
        if (key is not null)
        {
            request.Headers.Add("Idempotency-Key", key);
        }

        return await room.Http.SendAsync(request);
    }

    private static async Task<JsonElement> JsonAsync(HttpResponseMessage answer) => JsonDocument.Parse(await answer.Content.ReadAsStringAsync()).RootElement;
}

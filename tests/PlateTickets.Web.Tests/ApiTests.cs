using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using PlateTickets.Tests.Shared;

namespace PlateTickets.Web.Tests;

public sealed class ApiTests(HttpRoom room) : IClassFixture<HttpRoom>
{
    [Fact]
    public async Task Order_Separations_Ticket_Scans_Board_Traveler()
    {
        using var entered = await room.EnterOrderAsync();
        Assert.Equal(HttpStatusCode.Created, entered.StatusCode);
        var number = (await Json(entered)).GetProperty("number").GetString()!;

        var folder = Directory.CreateTempSubdirectory("api-").FullName;
        try
        {
            var files = GhostscriptJob.Make(folder, "api", 150, 390.104, ppi: 300, compression: "none");
            using var sent = await room.Http.PostAsync(
                $"/api/v1/orders/{number}/separations", HttpRoom.Form(files.Select(f => (Path.GetFileName(f), File.ReadAllBytes(f)))));
            Assert.Equal(HttpStatusCode.OK, sent.StatusCode);
            var taken = await Json(sent);
            Assert.Equal("Ready", taken.GetProperty("state").GetString());
            Assert.Equal(
                ["Black", "Cyan", GhostscriptJob.Spot, "Magenta", "Yellow"],
                taken.GetProperty("separations").EnumerateArray().Select(s => s.GetProperty("colour").GetString()).Order());
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }

        var ticket = await Get($"/api/v1/tickets/{number}");
        Assert.Equal(5, ticket.GetProperty("plates").GetArrayLength());
        var sheet = ticket.GetProperty("sheets")[0];
        var sheetNumber = sheet.GetProperty("number").GetString()!;
        Assert.Equal(7, sheet.GetProperty("stages").GetArrayLength());

        using var started = await Scan(Guid.NewGuid(), sheetNumber, await FreeFrame());
        Assert.Equal(HttpStatusCode.OK, started.StatusCode);
        Assert.Equal("Started", (await Json(started)).GetProperty("outcome").GetString());

        var onBoard = await Eventually(async () => (await Get("/api/v1/board")).GetProperty("sheets").EnumerateArray()
            .FirstOrDefault(s => s.GetProperty("number").GetString() == sheetNumber && s.GetProperty("state").GetString() == "Running"));
        Assert.Equal("Back exposure", onBoard.GetProperty("station").GetString());

        using var traveler = await room.Http.GetAsync($"/api/v1/sheets/{sheetNumber}/traveler.pdf?paper=letter");
        Assert.Equal("application/pdf", traveler.Content.Headers.ContentType?.MediaType);
        Assert.StartsWith("%PDF-", await traveler.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task OrderWithMistakes_NamesEveryFieldInProblemDetails()
    {
        using var reply = await room.EnterOrderAsync(new
        {
            customer = "Northmere Dairy",
            title = " ",
            press = "Press 1, wide film",
            cylinder = "Sleeve 400",
            due = "2020-01-01T00:00:00Z",
            copies = 0,
        });
        var problem = await Problem(reply, HttpStatusCode.UnprocessableEntity);
        var errors = problem.GetProperty("errors");
        Assert.Contains("title", errors.GetProperty("title")[0].GetString(), StringComparison.Ordinal);
        Assert.Contains("is in the past", errors.GetProperty("due")[0].GetString(), StringComparison.Ordinal);
        Assert.Contains("Copies must be 1 to", errors.GetProperty("copies")[0].GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task UnknownPress_ListsThePresses()
    {
        using var reply = await room.EnterOrderAsync(new { customer = "A", title = "B", press = "Press 9", due = "2026-11-27T14:00:00Z" });
        var problem = await Problem(reply, HttpStatusCode.UnprocessableEntity);
        Assert.Contains("Press 1, wide film", problem.GetProperty("errors").GetProperty("press")[0].GetString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{")]
    [InlineData("{}")]
    [InlineData("[]")]
    [InlineData("""{"customer":1}""")]
    public async Task BrokenJson_IsABadRequest(string body)
    {
        using var reply = await room.Http.PostAsync("/api/v1/orders", new StringContent(body, System.Text.Encoding.UTF8, "application/json"));
        await Problem(reply, HttpStatusCode.BadRequest);
    }

    [Fact]
    public async Task FileThatIsNoSeparation_IsNamed_AndTheOrderIsKept()
    {
        using var entered = await room.EnterOrderAsync();
        var number = (await Json(entered)).GetProperty("number").GetString()!;
        using var reply = await room.Http.PostAsync($"/api/v1/orders/{number}/separations", HttpRoom.Form(("notes.tif", "no image"u8.ToArray())));
        var problem = await Problem(reply, HttpStatusCode.UnprocessableEntity);
        Assert.Contains("not a TIFF", problem.GetProperty("errors").GetProperty("notes.tif")[0].GetString(), StringComparison.Ordinal);
        Assert.Equal("WaitingForFiles", (await Get($"/api/v1/tickets/{number}")).GetProperty("state").GetString());
    }

    [Fact]
    public async Task SeparationsWithoutAForm_OrForNoOrder_AreRefused()
    {
        using var entered = await room.EnterOrderAsync();
        var number = (await Json(entered)).GetProperty("number").GetString()!;
        using var noForm = await room.Http.PostAsync($"/api/v1/orders/{number}/separations", new StringContent("x"));
        await Problem(noForm, HttpStatusCode.UnsupportedMediaType);
        using var noOrder = await room.Http.PostAsync("/api/v1/orders/T00000000/separations", HttpRoom.Form(("a.tif", [1])));
        await Problem(noOrder, HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task RefusedScan_IsAProblemWithItsSentence_AndTheSameIdGivesItAgain()
    {
        var id = Guid.NewGuid();
        using var first = await Scan(id, "4006381333931", "dryer");
        var problem = await Problem(first, HttpStatusCode.Conflict);
        Assert.Equal("NotANumber", problem.GetProperty("outcome").GetString());
        Assert.Contains("is not a sheet number", problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
        using var second = await Scan(id, "4006381333931", "dryer");
        Assert.True((await Problem(second, HttpStatusCode.Conflict)).GetProperty("repeated").GetBoolean());
    }

    [Fact]
    public async Task ScanAtNoMachine_OrWithoutAName_IsRefused()
    {
        using var nowhere = await Scan(Guid.NewGuid(), "S", "no-machine");
        await Problem(nowhere, HttpStatusCode.NotFound);
        using var nobody = await Scan(Guid.NewGuid(), "S", "dryer", by: " ");
        await Problem(nobody, HttpStatusCode.BadRequest);
        using var noId = await Scan(Guid.Empty, "S", "dryer");
        await Problem(noId, HttpStatusCode.BadRequest);
    }

    [Fact]
    public async Task Recipes_AreDownloadedAsCsv()
    {
        using var reply = await room.Http.GetAsync("/api/v1/recipes.csv");
        Assert.Equal("text/csv", reply.Content.Headers.ContentType?.MediaType);
        Assert.Equal("recipes.csv", reply.Content.Headers.ContentDisposition?.FileName);
        Assert.Contains("Aster 170,FaceExposure.DoseMjPerCm2,10800,mJ/cm²", await reply.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/api/v1/quality/chart.csv?material=1&grouping=Shifts", "text/csv", "time (UTC)")]
    [InlineData("/api/v1/quality/remakes.csv", "text/csv", "scratch")]
    [InlineData("/api/v1/report.csv?from=2026-11-01&to=2026-11-20", "text/csv", "2026-11-01 to 2026-11-20,2026-10-12 to 2026-10-31,change")]
    [InlineData("/api/v1/report.pdf?paper=letter", "application/pdf", "%PDF-")]
    public async Task Figures_AreDownloaded(string address, string type, string holds)
    {
        using var reply = await room.Http.GetAsync(address);
        Assert.Equal(HttpStatusCode.OK, reply.StatusCode);
        Assert.Equal(type, reply.Content.Headers.ContentType?.MediaType);
        Assert.Contains(holds, await reply.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/api/v1/quality/chart.csv?measure=weight")]
    [InlineData("/api/v1/quality/chart.csv?from=yesterday")]
    [InlineData("/api/v1/quality/remakes.csv?from=2026-11-02&to=2026-11-01")]
    [InlineData("/api/v1/report.csv?from=2020-01-01")]
    [InlineData("/api/v1/report.pdf?paper=a3")]
    public async Task Figures_OfNoPeriodOrKind_AreRefusedWithASentence(string address)
    {
        using var reply = await room.Http.GetAsync(address);
        Assert.Equal(4, (int)reply.StatusCode / 100);
        Assert.NotEmpty((await Problem(reply, reply.StatusCode)).GetProperty("detail").GetString()!);
    }

    [Theory]
    [InlineData("/api/v1/tickets/T00000000")]
    [InlineData("/api/v1/tickets/nonsense")]
    [InlineData("/api/v1/sheets/S00000000/traveler.pdf")]
    [InlineData("/api/v1/nothing")]
    public async Task WhatIsNotThere_IsAProblem404(string address)
    {
        using var reply = await room.Http.GetAsync(address);
        await Problem(reply, HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task WriteFromAnotherSite_IsForbidden()
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/orders") { Content = JsonContent.Create(new { }) };
        request.Headers.Add("Sec-Fetch-Site", "cross-site");
        using var reply = await room.Http.SendAsync(request);
        await Problem(reply, HttpStatusCode.Forbidden);
    }

    [Fact]
    public async Task ForeignHostName_IsRefused()
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/api/v1/board");
        request.Headers.Host = "plates.example";
        using var reply = await room.Http.SendAsync(request);
        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
    }

    [Fact]
    public async Task Promise_HasThreeConfidences_AndAnUnknownMaterialListsTheKnown()
    {
        using var asked = await room.Http.PostAsJsonAsync("/api/v1/promises", new { material = "aster 170", sheets = new[] { new { widthMm = 900, lengthMm = 1200, plates = 4 } } });
        Assert.Equal(HttpStatusCode.OK, asked.StatusCode);
        var inTurn = (await Json(asked)).GetProperty("inTurn");
        var times = new[] { "half", "eighty", "ninetyFive" }.Select(n => inTurn.GetProperty(n).GetDateTime()).ToList();
        Assert.Equal(times.Order(), times);
        Assert.Empty(inTurn.GetProperty("makesLate").EnumerateArray());

        using var unknown = await room.Http.PostAsJsonAsync("/api/v1/promises", new { material = "Paper" });
        Assert.Equal(HttpStatusCode.UnprocessableEntity, unknown.StatusCode);
        Assert.Contains("Aster 170", await unknown.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task OpenApi_NamesEveryEndpoint()
    {
        var paths = (await Get("/openapi/v1.json")).GetProperty("paths").EnumerateObject()
            .SelectMany(p => p.Value.EnumerateObject().Select(m => $"{m.Name.ToUpperInvariant()} {p.Name}")).Order();
        Assert.Equal(
            [
                "GET /api/v1/arrivals/{id}/preview.png", "GET /api/v1/audit.csv", "GET /api/v1/board", "GET /api/v1/equipment/{slug}/drawers.pdf", "GET /api/v1/handovers/{id}/handover.pdf", "GET /api/v1/layouts/{id}/travelers.pdf", "GET /api/v1/orders", "GET /api/v1/orders.csv", "GET /api/v1/orders/example.csv", "GET /api/v1/plates.csv", "GET /api/v1/quality/chart.csv", "GET /api/v1/quality/remakes.csv", "GET /api/v1/recipes.csv", "GET /api/v1/report.csv", "GET /api/v1/report.pdf", "GET /api/v1/separations/{id}/preview.png", "GET /api/v1/sheets/{number}/traveler.pdf", "GET /api/v1/tickets/{number}", "GET /api/v1/tickets/{number}/confirmation.pdf",
                "GET /api/v1/tickets/{number}/plates.csv", "PATCH /api/v1/tickets/{number}", "POST /api/v1/orders", "POST /api/v1/orders.csv",
                "POST /api/v1/orders/{number}/separations", "POST /api/v1/promises", "POST /api/v1/scans",
            ],
            paths);
    }

    private Task<HttpResponseMessage> Scan(Guid id, string code, string equipment, string by = "Test") =>
        room.Http.PostAsJsonAsync("/api/v1/scans", new { id, code, equipment, by });

    private async Task<string> FreeFrame()
    {
        var busy = (await Get("/api/v1/board")).GetProperty("sheets").EnumerateArray()
            .Where(s => s.GetProperty("state").GetString() == "Running").Select(s => (Sheet: s.GetProperty("number").GetString(), On: s.GetProperty("equipment").GetString())).ToList();
        if (busy.Find(b => b.On == "Frame 1") is { Sheet: { } sheet })
        {
            using var freed = await room.Http.PostAsJsonAsync("/api/v1/scans", new { id = Guid.NewGuid(), code = sheet, equipment = "frame-1", by = "Test", action = "Finish", confirmed = true });
            freed.EnsureSuccessStatusCode();
        }

        return "frame-1";
    }

    private async Task<JsonElement> Get(string address)
    {
        using var reply = await room.Http.GetAsync(address);
        Assert.Equal(HttpStatusCode.OK, reply.StatusCode);
        return await Json(reply);
    }

    private static async Task<JsonElement> Problem(HttpResponseMessage reply, HttpStatusCode status)
    {
        Assert.Equal(status, reply.StatusCode);
        Assert.Equal("application/problem+json", reply.Content.Headers.ContentType?.MediaType);
        var problem = await Json(reply);
        Assert.Equal((int)status, problem.GetProperty("status").GetInt32());
        return problem;
    }

    private static async Task<JsonElement> Json(HttpResponseMessage reply) => JsonDocument.Parse(await reply.Content.ReadAsStringAsync()).RootElement;

    private static async Task<JsonElement> Eventually(Func<Task<JsonElement>> look)
    {
        for (var i = 0; i < 100; i++)
        {
            if (await look() is { ValueKind: JsonValueKind.Object } found)
            {
                return found;
            }

            await Task.Delay(20);
        }

        throw new InvalidOperationException("It did not come to be within two seconds.");
    }
}

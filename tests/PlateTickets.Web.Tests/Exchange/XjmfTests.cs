using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Xml.Linq;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Tests.Exchange;

namespace PlateTickets.Web.Tests.Exchange;

/// <summary>XJDF and XJMF over HTTP (XJDF 2.2, 9.5 to 9.10), every answer held against the published schema where that is here.</summary>
public sealed class XjmfTests(HttpRoom room) : IClassFixture<HttpRoom>
{
    private static readonly XNamespace Ns = "http://www.CIP4.org/JDFSchema_2_0";

    [Fact]
    public void TheChecks_FindWhatIsWrong()
    {
        Assert.Empty(XjdfSchema.Wrong(Utf8(XjdfText.Order(files: true))));
        var unordered = Utf8("""<XJMF xmlns="http://www.CIP4.org/JDFSchema_2_0"><Header DeviceID="A" Time="2026-11-25T09:15:01Z"/><ResponseStatus><Header DeviceID="A" Time="2026-11-25T09:15:01Z"/><DeviceInfo Status="Idle"><JobPhase JobID="1" Status="Waiting"><Part Separation="Cyan"/><Activity/></JobPhase></DeviceInfo></ResponseStatus></XJMF>""");
        Assert.NotEmpty(XjdfSchema.Wrong(unordered));
        if (XjdfSchema.IsHere)
        {
            Assert.NotEmpty(XjdfSchema.Wrong(Utf8(XjdfText.Order(exposed: "PlateType=\"Fancy\""))));
        }
    }

    [Fact]
    public async Task ADocumentAlone_IsSubmitted()
    {
        var answer = await SendAsync("", XjdfText.Order(jobId: "HTTP-1"));
        var response = Single(answer, "ResponseSubmitQueueEntry");
        Assert.Equal("0", response.Attribute("ReturnCode")!.Value);
        var entry = response.Element(Ns + "QueueEntry")!;
        Assert.Equal(("HTTP-1", "Waiting", "JobMissResources", "Active"), (entry.Attribute("JobID")!.Value, entry.Attribute("Status")!.Value, entry.Attribute("StatusDetails")!.Value, entry.Attribute("Activation")!.Value));
        Assert.Contains("\"HTTP-1\"", await ReturnedAsync(entry), StringComparison.Ordinal);
    }

    [Fact]
    public async Task AHeldDocument_SaysWhatIsAsked()
    {
        var response = Single(await SendAsync("/queue-entries/submit", XjdfText.Order(jobId: "HTTP-2", thickness: "1.7")), "ResponseSubmitQueueEntry");
        Assert.Equal("0", response.Attribute("ReturnCode")!.Value);
        Assert.Equal("JobUserInputRequired", response.Element(Ns + "QueueEntry")!.Attribute("StatusDetails")!.Value);
        var note = response.Element(Ns + "Notification")!;
        Assert.Equal("Warning", note.Attribute("Class")!.Value);
        Assert.Contains("did its sender mean 1.7 mm", note.Value, StringComparison.Ordinal);
    }

    [Fact]
    public async Task APackage_BringsMessageDocumentAndFiles()
    {
        var folder = Directory.CreateTempSubdirectory("package-").FullName;
        try
        {
            var files = GhostscriptJob.Make(folder, "order", 300, 390.104, ppi: 150).Where(f => !f.Contains(GhostscriptJob.Spot, StringComparison.Ordinal))
                .Select(f => ($"files/{XjdfText.Cmyk.Split(' ').First(c => f.Contains($"({c})", StringComparison.Ordinal))}.tif", File.ReadAllBytes(f)));
            var package = XjdfText.Zip([("root.xjmf", Utf8(Message("""<QueueSubmissionParams URL="cid:jobs/order.xjdf" Priority="70" ReturnJMF="http://10.0.0.1/back"/>"""))), ("jobs/order.xjdf", Utf8(XjdfText.Order(jobId: "ZIP-1", files: true))), .. files]);
            var response = Single(await SendAsync("", package), "ResponseSubmitQueueEntry");
            Assert.Equal(("0", "C1"), (response.Attribute("ReturnCode")!.Value, response.Element(Ns + "Header")!.Attribute("refID")!.Value));
            Assert.Equal("70", response.Element(Ns + "QueueEntry")!.Attribute("Priority")!.Value);
            Assert.Contains("will not be returned to http://10.0.0.1/back", response.Element(Ns + "Notification")!.Value, StringComparison.Ordinal);
            var view = await WaitAsync("ZIP-1", d => d.FilesOpen == 0);
            Assert.Equal((DocumentState.Done, TicketState.Ready), (view.Document.State, view.Document.Order!.Ticket!.State));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task EveryKnownMessage_IsAnsweredByTheSchema()
    {
        await SendAsync("", XjdfText.Order(jobId: "KNOWN-1"));
        foreach (var (path, query, response) in new[]
                 {
                     ("/messages", "<QueryKnownMessages>{0}</QueryKnownMessages>", "ResponseKnownMessages"),
                     ("/devices", "<QueryKnownDevices>{0}</QueryKnownDevices>", "ResponseKnownDevices"),
                     ("/subscriptions", "<QueryKnownSubscriptions>{0}</QueryKnownSubscriptions>", "ResponseKnownSubscriptions"),
                     ("/queue-entries", "<QueryQueueStatus>{0}</QueryQueueStatus>", "ResponseQueueStatus"),
                     ("/status", "<QueryStatus>{0}<StatusQuParams JobID=\"KNOWN-1\"/></QueryStatus>", "ResponseStatus"),
                     ("/subscriptions/stop", "<CommandStopPersistentChannel>{0}<StopPersChParams ChannelID=\"CH1\"/></CommandStopPersistentChannel>", "ResponseStopPersistentChannel"),
                 })
        {
            var answer = await SendAsync(path, Xjmf(string.Format(System.Globalization.CultureInfo.InvariantCulture, query, Header("Q7"))));
            var element = Single(answer, response);
            Assert.Equal(("0", "Q7"), (element.Attribute("ReturnCode")!.Value, element.Element(Ns + "Header")!.Attribute("refID")!.Value));
        }

        var phase = Single(await SendAsync("", Xjmf($"<QueryStatus>{Header("Q8")}<StatusQuParams JobID=\"KNOWN-1\"/></QueryStatus>")), "ResponseStatus").Descendants(Ns + "JobPhase").Single();
        Assert.Equal(("Waiting", "JobMissResources", "InTime"), (phase.Attribute("Status")!.Value, phase.Attribute("StatusDetails")!.Value, phase.Attribute("DeadLine")!.Value));
    }

    [Fact]
    public async Task AJob_IsHeldResumedAndAborted()
    {
        var entry = Single(await SendAsync("", XjdfText.Order(jobId: "MOD-1")), "ResponseSubmitQueueEntry").Element(Ns + "QueueEntry")!.Attribute("QueueEntryID")!.Value;
        Assert.Equal(("0", "Held"), await ModifyAsync(entry, "Hold"));
        Assert.Equal(("0", "Active"), await ModifyAsync(entry, "Resume"));
        Assert.Equal(("5", "Active"), await ModifyAsync(entry, "SetGang"));
        Assert.Equal(("0", "Removed"), await ModifyAsync(entry, "Abort"));
        Assert.Equal(("106", "Removed"), await ModifyAsync(entry, "Resume"));
        Assert.Equal("105", Single(await SendAsync("", Modify("Q99999", "Hold")), "ResponseModifyQueueEntry").Attribute("ReturnCode")!.Value);

        using var other = await room.Server.ClientAsync(Role.Csr);
        var theirs = Single(await SendAsync("", XjdfText.Order(jobId: "MOD-2")), "ResponseSubmitQueueEntry").Element(Ns + "QueueEntry")!.Attribute("QueueEntryID")!.Value;
        Assert.Equal("1", Single(await SendAsync("", Modify(theirs, "Abort"), other), "ResponseModifyQueueEntry").Attribute("ReturnCode")!.Value);
    }

    [Fact]
    public async Task AResubmission_ChangesTheJob()
    {
        var entry = Single(await SendAsync("", XjdfText.Order(jobId: "RE-1")), "ResponseSubmitQueueEntry").Element(Ns + "QueueEntry")!.Attribute("QueueEntryID")!.Value;
        var package = XjdfText.Zip(
            ("root.xjmf", Utf8(Xjmf($"<CommandResubmitQueueEntry>{Header("C2")}<ResubmissionParams QueueEntryID=\"{entry}\" UpdateMethod=\"Complete\" URL=\"order.xjdf\"/></CommandResubmitQueueEntry>"))),
            ("order.xjdf", Utf8(XjdfText.Order(jobId: "RE-1", due: "2026-11-28T09:00:00Z"))));
        Assert.Equal("0", Single(await SendAsync("/queue-entries/resubmit", package), "ResponseResubmitQueueEntry").Attribute("ReturnCode")!.Value);
        Assert.Equal(new DateTime(2026, 11, 28, 9, 0, 0, DateTimeKind.Utc), (await WaitAsync("RE-1", _ => true)).Document.Order!.DueUtc);
    }

    [Theory]
    [InlineData("", "3")]
    [InlineData("{\"JobID\": \"1\"}", "3")]
    [InlineData("<XJMF xmlns=\"http://www.CIP4.org/JDFSchema_2_0\"/>", "4")]
    [InlineData("<!DOCTYPE a [<!ENTITY x SYSTEM \"http://127.0.0.1/\">]><a>&x;</a>", "3")]
    [InlineData("<JMF xmlns=\"http://www.CIP4.org/JDFSchema_1_1\"/>", "4")]
    public async Task WhatIsNoMessage_IsAnsweredAllTheSame(string body, string code)
    {
        var answer = await SendAsync("", body);
        Assert.Equal(code, answer.Root!.Elements().Last().Attribute("ReturnCode")!.Value);
        Assert.NotEmpty(answer.Root.Descendants(Ns + "Comment").Single().Value);
    }

    [Fact]
    public async Task UnknownAndMisplacedMessages_AreRefusedOneByOne()
    {
        var answer = await SendAsync("", Xjmf($"<CommandShutDown>{Header("A")}</CommandShutDown><QueryKnownMessages>{Header("B")}</QueryKnownMessages><CommandSubmitQueueEntry>{Header("C")}<QueueSubmissionParams URL=\"http://127.0.0.1/x.xjdf\"/></CommandSubmitQueueEntry>"));
        Assert.Equal(["5 A", "0 B", "1 C"], answer.Root!.Elements().Skip(1).Select(e => $"{e.Attribute("ReturnCode")!.Value} {e.Element(Ns + "Header")!.Attribute("refID")!.Value}"));
        Assert.Equal("4", Single(await SendAsync("/messages", Xjmf($"<QueryKnownDevices>{Header("D")}</QueryKnownDevices>")), "ResponseKnownDevices").Attribute("ReturnCode")!.Value);
    }

    [Fact]
    public async Task HostilePackages_AreRefused_AndLeaveNothing()
    {
        var order = Utf8(XjdfText.Order(jobId: "EVIL-1", files: true));
        await RefusedAsync(XjdfText.Zip(("../../evil.xjdf", order)), "leads out of it");
        await RefusedAsync(XjdfText.Zip(("..\\evil.xjdf", order)), "leads out of it");
        await RefusedAsync(XjdfText.Zip(("C:/evil.xjdf", order)), "leads out of it");
        await RefusedAsync(XjdfText.Zip(("a.xjdf", order), ("b.xjdf", order)), "not exactly one");
        await RefusedAsync(XjdfText.Zip([.. Enumerable.Range(0, DocumentPackage.MostEntries + 1).Select(i => ($"f{i}", Array.Empty<byte>()))]), "entries");
        await RefusedAsync(XjdfText.Zip(("a.xjdf", new byte[8 << 20])), "longer than 4 MiB");
        var whole = XjdfText.Zip(("a.xjdf", order));
        await RefusedAsync(whole[..(whole.Length / 2)], "no zip file that can be read");
        // An entry that says it is small and unpacks to more (its length in the directory is overwritten): what counts is what comes out.
        var lying = XjdfText.Zip(("root.xjmf", new byte[8 << 20]));
        var directory = lying.AsSpan().LastIndexOf("PK\x01\x02"u8);
        lying.AsSpan(directory + 24, 4).Clear();
        Assert.NotEqual("0", (await SendAsync("", lying)).Root!.Elements().Last().Attribute("ReturnCode")!.Value);
        Assert.Empty(room.Server.Services.GetRequiredService<DocumentShelf>().All());
        Assert.Empty(Directory.GetFiles(Path.GetTempPath(), "evil.xjdf"));
    }

    [Fact]
    public async Task AHundredMutatedDocuments_GetACodeAndASentence()
    {
        var random = new Random(2417);
        var good = Utf8(XjdfText.Order(jobId: "MUT-1", files: true));
        var codes = new Dictionary<string, int>();
        for (var i = 0; i < 100; i++)
        {
            var bytes = good.ToArray();
            switch (i % 5)
            {
                case 0:
                    bytes[random.Next(bytes.Length)] = (byte)random.Next(256);
                    break;
                case 1:
                    bytes = bytes[..random.Next(1, bytes.Length)];
                    break;
                case 2:
                    var at = random.Next(bytes.Length - 40);
                    bytes = [.. bytes[..at], .. bytes[(at + random.Next(1, 40))..]];
                    break;
                case 3:
                    // A value of an attribute becomes something else.
                    var text = Encoding.UTF8.GetString(bytes);
                    var quotes = Enumerable.Range(0, text.Length).Where(p => text[p] == '"').ToList();
                    var pair = random.Next(quotes.Count / 2) * 2;
                    bytes = Utf8($"{text[..(quotes[pair] + 1)]}{new[] { "", "-1", "9999999999999999999999", "\u00e4\u00f6", "NaN", new string('x', 5000) }[random.Next(6)]}{text[quotes[pair + 1]..]}");
                    break;
                default:
                    var from = random.Next(bytes.Length);
                    bytes = [.. bytes, .. bytes[from..]];
                    break;
            }

            var answer = await SendAsync("", bytes);
            var response = answer.Root!.Elements().Last();
            var code = response.Attribute("ReturnCode")!.Value;
            codes[code] = codes.GetValueOrDefault(code) + 1;
            Assert.True(code == "0" || response.Descendants(Ns + "Comment").Any(c => c.Value.Length > 10), response.ToString());
        }

        Assert.True(codes.GetValueOrDefault("3") > 20, string.Join(", ", codes));
    }

    [Fact]
    public async Task WhoMayNotEnter_MayAskOnly()
    {
        using var operatorOnly = await room.Server.ClientAsync(Role.Operator);
        Assert.Equal("1", Single(await SendAsync("", XjdfText.Order(jobId: "RIGHT-1"), operatorOnly), "ResponseSubmitQueueEntry").Attribute("ReturnCode")!.Value);
        Assert.Equal("0", Single(await SendAsync("", Xjmf($"<QueryKnownMessages>{Header("B")}</QueryKnownMessages>"), operatorOnly), "ResponseKnownMessages").Attribute("ReturnCode")!.Value);
        using var nobody = new HttpClient { BaseAddress = room.Http.BaseAddress };
        using var refused = await nobody.PostAsync("/api/xjdf", new StringContent(XjdfText.Order()));
        Assert.Equal(HttpStatusCode.Unauthorized, refused.StatusCode);
    }

    private async Task<(string Code, string Activation)> ModifyAsync(string entry, string operation)
    {
        var response = Single(await SendAsync("/queue-entries/modify", Modify(entry, operation)), "ResponseModifyQueueEntry");
        return (response.Attribute("ReturnCode")!.Value, response.Element(Ns + "QueueEntry")!.Attribute("Activation")!.Value);
    }

    private static string Modify(string entry, string operation) =>
        Xjmf($"<CommandModifyQueueEntry>{Header("C3")}<ModifyQueueEntryParams Operation=\"{operation}\"><QueueFilter QueueEntryIDs=\"{entry}\"/></ModifyQueueEntryParams></CommandModifyQueueEntry>");

    private async Task RefusedAsync(byte[] package, string says)
    {
        var response = (await SendAsync("", package)).Root!.Elements().Last();
        Assert.NotEqual("0", response.Attribute("ReturnCode")!.Value);
        Assert.Contains(says, response.Value, StringComparison.Ordinal);
    }

    private async Task<string> ReturnedAsync(XElement entry)
    {
        using var got = await room.Http.GetAsync($"/api/xjdf/queue-entries/{entry.Attribute("QueueEntryID")!.Value}/returned.xjdf");
        var bytes = await got.Content.ReadAsByteArrayAsync();
        Assert.Empty(XjdfSchema.Wrong(bytes));
        return Encoding.UTF8.GetString(bytes);
    }

    private async Task<DocumentView> WaitAsync(string jobId, Func<ReceivedDocument, bool> until)
    {
        var desk = room.Server.Services.GetRequiredService<DocumentDesk>();
        for (var i = 0; i < 200; i++)
        {
            if ((await desk.ListAsync(waiting: false)).Find(d => d.JobId == jobId) is { } found && until(found))
            {
                return (await desk.FindAsync(found.Id))!;
            }

            await Task.Delay(50);
        }

        throw new InvalidOperationException($"{jobId} did not come so far in 10 s.");
    }

    private Task<XDocument> SendAsync(string path, string text, HttpClient? http = null) => SendAsync(path, Utf8(text), http);

    private async Task<XDocument> SendAsync(string path, byte[] bytes, HttpClient? http = null)
    {
        using var content = new ByteArrayContent(bytes);
        content.Headers.ContentType = new MediaTypeHeaderValue("application/vnd.cip4-xjmf+xml");
        using var answer = await (http ?? room.Http).PostAsync($"/api/xjdf{path}", content);
        var body = await answer.Content.ReadAsByteArrayAsync();
        Assert.True(answer.StatusCode == HttpStatusCode.OK, $"{answer.StatusCode}: {Encoding.UTF8.GetString(body)}");
        Assert.Equal("application/vnd.cip4-xjmf+xml", answer.Content.Headers.ContentType!.MediaType);
        Assert.True(XjdfSchema.Wrong(body) is [], $"{string.Join("\n", XjdfSchema.Wrong(body))}\n{Encoding.UTF8.GetString(body)}");
        using var stream = new MemoryStream(body);
        return XDocument.Load(stream);
    }

    private static XElement Single(XDocument answer, string name) => answer.Root!.Elements(Ns + name).SingleOrDefault() ?? throw new InvalidOperationException(answer.ToString());

    private static string Message(string wish) => Xjmf($"<CommandSubmitQueueEntry>{Header("C1")}{wish}</CommandSubmitQueueEntry>");

    private static string Xjmf(string messages) => $"<?xml version=\"1.0\" encoding=\"UTF-8\"?><XJMF xmlns=\"http://www.CIP4.org/JDFSchema_2_0\" Version=\"2.2\">{Header(null)}{messages}</XJMF>";

    private static string Header(string? id) => $"<Header DeviceID=\"ORDER-DESK\" {(id is null ? "" : $"ID=\"{id}\"")} Time=\"2026-11-25T09:15:01+01:00\"/>";

    private static byte[] Utf8(string text) => Encoding.UTF8.GetBytes(text);
}

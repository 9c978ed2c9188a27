using System.IO.Compression;
using System.Text;
using System.Xml.Linq;
using Microsoft.AspNetCore.Http;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Exchange.Messages;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Tests;
using PlateTickets.Tickets.Tests.Exchange;

namespace PlateTickets.Web.Tests.Exchange;

/// <summary>Signals to a subscriber and the job that is given back, through the whole program (XJDF 2.2, 9.6).</summary>
public sealed class SignalTests
{
    private static readonly XNamespace Ns = "http://www.CIP4.org/JDFSchema_2_0";

    [Fact]
    public async Task ASubscriber_IsToldInOrder_AlsoAfterAFault_AndTheJobComesBack()
    {
        await using var room = await RoomServer.StartAsync("demo", null, "--Exchange:AllowedHosts", "127.0.0.1");
        await using var receiver = await Receiver.StartAsync();
        using var http = await room.ClientAsync(Role.Manager);
        foreach (var type in new[] { "Status", "QueueStatus" })
        {
            var subscribed = await PostAsync(http, $"/api/xjdf/{(type == "Status" ? "status" : "queue-entries")}/subscribe", Xjmf($"<Query{type}><Header DeviceID=\"A\" ID=\"Sub{type}\" Time=\"2026-11-25T09:15:01Z\"/><Subscription ChannelMode=\"Reliable\" URL=\"{receiver.Url}\"/></Query{type}>"));
            Assert.Equal("0", subscribed.Attribute("ReturnCode")!.Value);
        }

        var answer = await PostAsync(http, "/api/xjdf", XjdfText.Zip(
            ("root.xjmf", Xjmf($"<CommandSubmitQueueEntry><Header DeviceID=\"A\" ID=\"C1\" Time=\"2026-11-25T09:15:01Z\"/><QueueSubmissionParams URL=\"o.xjdf\" ReturnJMF=\"{receiver.Url}\"/></CommandSubmitQueueEntry>")),
            ("o.xjdf", Encoding.UTF8.GetBytes(XjdfText.Order(jobId: "SIG-1", colours: "Cyan")))));
        var entry = answer.Element(Ns + "QueueEntry")!.Attribute("QueueEntryID")!.Value;
        await SeenAsync(receiver, "SignalQueueStatus", 1);

        // The subscriber is away for a moment; what happens meanwhile comes after, in its order.
        var faults = 2;
        receiver.Answer = context =>
        {
            context.Response.StatusCode = Interlocked.Decrement(ref faults) >= 0 ? StatusCodes.Status503ServiceUnavailable : StatusCodes.Status200OK;
            return Task.CompletedTask;
        };
        var entries = room.Services.GetRequiredService<JobEntries>();
        var ticket = (await entries.ListAsync(new JobAsk([entry])))[0].Ticket!.Order!.Number;
        await room.Services.GetRequiredService<OrderEntry>().AddSeparationsAsync(ticket, [RoomFixture.Read("Cyan")], "test");
        Assert.Equal("0", (await PostAsync(http, "/api/xjdf/queue-entries/modify", Modify(entry, "Hold"))).Attribute("ReturnCode")!.Value);
        Assert.Equal("0", (await PostAsync(http, "/api/xjdf/queue-entries/modify", Modify(entry, "Resume"))).Attribute("ReturnCode")!.Value);
        Assert.Equal("0", (await PostAsync(http, "/api/xjdf/queue-entries/modify", Modify(entry, "Abort"))).Attribute("ReturnCode")!.Value);
        var package = await SeenAsync(receiver, "zip", 1, room);
        var signals = await SeenAsync(receiver, "SignalQueueStatus", 4, room);
        Assert.Equal("Removed", signals[^1].Descendants(Ns + "QueueEntry").Single().Attribute("Activation")!.Value);
        var status = await SeenAsync(receiver, "SignalStatus", 4, room);
        Assert.All(status, s => Assert.Equal("SubStatus", s.Element(Ns + "SignalStatus")!.Element(Ns + "Header")!.Attribute("refID")!.Value));
        var ids = status.Select(s => int.Parse(s.Element(Ns + "SignalStatus")!.Element(Ns + "Header")!.Attribute("ID")!.Value[1..], System.Globalization.CultureInfo.InvariantCulture)).Distinct().ToList();
        Assert.Equal(ids.Order(), ids);

        var run = package[0].Descendants(Ns + "ProcessRun").Single();
        Assert.Equal(("Aborted", entry), (run.Attribute("EndStatus")!.Value, run.Attribute("QueueEntryID")!.Value));
        Assert.Equal("0", (await PostAsync(http, "/api/xjdf/subscriptions/stop", Xjmf($"<CommandStopPersistentChannel><Header DeviceID=\"A\" ID=\"C9\" Time=\"2026-11-25T09:15:01Z\"/><StopPersChParams URL=\"{receiver.Url}\"/></CommandStopPersistentChannel>"))).Attribute("ReturnCode")!.Value);
        Assert.Empty((await PostAsync(http, "/api/xjdf/subscriptions", Xjmf("<QueryKnownSubscriptions><Header DeviceID=\"A\" ID=\"C8\" Time=\"2026-11-25T09:15:01Z\"/></QueryKnownSubscriptions>"))).Elements(Ns + "SubscriptionInfo"));
    }

    [Fact]
    public async Task ASubscriptionToAPrivateAddress_IsDenied()
    {
        await using var room = await RoomServer.StartAsync();
        using var http = await room.ClientAsync(Role.Csr);
        foreach (var url in new[] { "http://169.254.169.254/latest", "https://localhost:5080/", "https://[::1]/", "ftp://example.org/", "" })
        {
            var answer = await PostAsync(http, "/api/xjdf", Xjmf($"<QueryStatus><Header DeviceID=\"A\" ID=\"S\" Time=\"2026-11-25T09:15:01Z\"/><Subscription URL=\"{url}\"/></QueryStatus>"));
            Assert.True(answer.Attribute("ReturnCode")!.Value == "111", url);
        }

        // A subscription ends with its key.
        Assert.Equal("0", (await PostAsync(http, "/api/xjdf", Xjmf("<QueryStatus><Header DeviceID=\"A\" ID=\"S\" Time=\"2026-11-25T09:15:01Z\"/><Subscription URL=\"https://mis.example/xjmf\"/></QueryStatus>"))).Attribute("ReturnCode")!.Value);
        var keys = room.Services.GetRequiredService<ApiKeys>();
        await keys.RevokeAsync((await keys.ListAsync()).First(k => k.Roles == Role.Csr).Id, "Test");
        await room.Services.GetRequiredService<DocumentDesk>().TakeAsync(new DocumentArrival(DocumentDoor.Http, "Another", "o.xjdf", Encoding.UTF8.GetBytes(XjdfText.Order(jobId: "REVOKED-1"))));
        await room.Services.GetRequiredService<DeliveryDesk>().FanOutAsync();
        await using var db = await room.Services.GetRequiredService<IDbContextFactory<PlateRoomDb>>().CreateDbContextAsync();
        Assert.Equal(0, await db.Deliveries.CountAsync(d => d.Kind == DeliveryKind.Signal));
    }

    // The waits between tries are of the room's clock, which stands still until the test moves it.
    private static async Task<List<XElement>> SeenAsync(Receiver receiver, string name, int least, RoomServer? room = null)
    {
        for (var i = 0; i < 100; i++)
        {
            var seen = new List<XElement>();
            foreach (var message in receiver.Messages)
            {
                if (message.ContentType == "application/vnd.cip4-xjmf+zip")
                {
                    using var zip = new ZipArchive(new MemoryStream(message.Body));
                    Add(seen, zip.GetEntry("returned.xjdf")!.Open(), "zip");
                }
                else
                {
                    Assert.Empty(XjdfSchema.Wrong(message.Body));
                    Add(seen, new MemoryStream(message.Body), null);
                }
            }

            var wanted = seen.Where(s => name == "zip" ? s.Name.LocalName == "XJDF" : s.Element(Ns + name) is not null).DistinctBy(s => s.Element(Ns + name)?.Element(Ns + "Header")!.Attribute("ID")!.Value).ToList();
            if (wanted.Count >= least)
            {
                return wanted;
            }

            room?.Clock.Advance(TimeSpan.FromSeconds(10));
            await Task.Delay(150);
        }

        throw new InvalidOperationException($"{least} {name} did not come in 15 s; {receiver.Messages.Count} messages did.");

        static void Add(List<XElement> seen, Stream body, string? kind)
        {
            var root = XDocument.Load(body).Root!;
            if (kind is null || root.Name.LocalName == "XJDF")
            {
                seen.Add(root);
            }
        }
    }

    private static byte[] Modify(string entry, string operation) =>
        Xjmf($"<CommandModifyQueueEntry><Header DeviceID=\"A\" ID=\"C3\" Time=\"2026-11-25T09:15:01Z\"/><ModifyQueueEntryParams Operation=\"{operation}\"><QueueFilter QueueEntryIDs=\"{entry}\"/></ModifyQueueEntryParams></CommandModifyQueueEntry>");

    private static async Task<XElement> PostAsync(HttpClient http, string path, byte[] body)
    {
        using var answer = await http.PostAsync(path, new ByteArrayContent(body));
        var bytes = await answer.Content.ReadAsByteArrayAsync();
        Assert.Empty(XjdfSchema.Wrong(bytes));
        using var stream = new MemoryStream(bytes);
        return XDocument.Load(stream).Root!.Elements().Last();
    }

    private static byte[] Xjmf(string message) => Encoding.UTF8.GetBytes($"<XJMF xmlns=\"http://www.CIP4.org/JDFSchema_2_0\" Version=\"2.2\"><Header DeviceID=\"A\" Time=\"2026-11-25T09:15:01Z\"/>{message}</XJMF>");
}

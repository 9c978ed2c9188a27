using System.Net.Mime;
using System.Text.Json;
using CloudNative.CloudEvents.SystemTextJson;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stations.Duty;
using PlateTickets.Tickets.Tests;
using PlateTickets.Web.Exchange.Webhooks;
using PlateTickets.Web.Startup;

namespace PlateTickets.Web.Tests.Exchange;

/// <summary>One ticket's day in the running program: what another program and the customer hear of it.</summary>
public sealed class RealDayTests
{
    [Fact]
    public async Task Ticket_IsFollowedFromOrderToFinish_ByAnotherProgramAndTheCustomer()
    {
        await using var receiver = await Receiver.StartAsync();
        await using var mail = MailServer.Start();
        await using var room = await RoomServer.StartAsync(
            "demo", builder => builder.Services.Configure<PlateRoomOptions>(o => o.ImproveSeconds = 0), "--Exchange:AllowedHosts", "127.0.0.1", "--Mail:Server", "127.0.0.1", "--Mail:Port", $"{mail.Port}", "--Mail:Security", "None", "--Mail:From", "plates@room.example");
        var services = room.Services;
        var desk = services.GetRequiredService<ScanDesk>();
        await FreeTheMachinesAsync();
        await services.GetRequiredService<WebhookDesk>().MakeAsync("Mill", receiver.Url, [.. TicketCloudEvent.Kinds.Select(k => k.Kind)], "Ada");

        var catalog = await services.GetRequiredService<RoomCatalog>().GetAsync();
        var press = catalog.Presses[0];
        var number = await services.GetRequiredService<OrderEntry>().EnterAsync(
            new NewOrder { NewCustomer = "Northmere Dairy", Title = "Butter foil", PressId = press.Id, CylinderId = press.Cylinders[0].Id, DueUtc = Now().AddDays(4), Copies = 1 }, [], "Ada");
        await services.GetRequiredService<Web.Exchange.Mail.OrderContacts>().SetAsync(number, "buyer@northmere.example", "PO 1", "Ada");
        await services.GetRequiredService<OrderEntry>().AddSeparationsAsync(number, [RoomFixture.Read("Cyan"), RoomFixture.Read("Black")], "Ada", layOut: true);
        await HeardAsync("plate-room.ticket.entered", "plate-room.ticket.promised");

        var ticket = (await services.GetRequiredService<OrderQueries>().FindAsync(number))!;
        var duty = services.GetRequiredService<DutyDesk>();
        await duty.HoldAsync(ticket.Order.Id, "the customer looks again", "Ada");
        await HeardAsync("plate-room.ticket.held");
        Assert.Equal("the customer looks again", Heard().Last(m => m.Type == "plate-room.ticket.held").Data.GetProperty("reason").GetString());
        await duty.GoOnAsync(ticket.Order.Id, "Ada");
        await HeardAsync("plate-room.ticket.going-on");

        var sheet = Assert.Single(ticket.Sheets);
        await PassAsync(sheet.Number, RoomFixture.SolventRoute[0].Machine);
        var made = await services.GetRequiredService<RemakeDesk>().RemakeAsync(
            new(sheet.Number, [.. sheet.Placements.Select(p => p.PlateId)], PlateDefect.Scratch, "", Station.BackExposure, Station.BackExposure), "Ada");
        await HeardAsync("plate-room.plate.remade");
        foreach (var (_, machine) in RoomFixture.SolventRoute)
        {
            foreach (var next in made.NewSheets)
            {
                await PassAsync(next, machine);
            }
        }

        await HeardAsync("plate-room.ticket.finished");
        var finished = Heard().Single(m => m.Type == "plate-room.ticket.finished");
        Assert.Equal(("done", "PO 1"), (finished.Data.GetProperty("state").GetString(), finished.Data.GetProperty("customerReference").GetString()));
        Assert.Equal("plate-room.ticket.entered", Heard()[0].Type);
        await UntilAsync(() => mail.Mails.Any(m => m.Subject == "Your plates are done: Butter foil"));
        Assert.Contains(mail.Mails, m => m.Subject == "Your plates are planned: Butter foil");
        Assert.Equal(0, (await services.GetRequiredService<DeliveryBook>().CountAsync()).Dead);

        DateTime Now() => room.Clock.GetUtcNow().UtcDateTime;

        List<(string Type, JsonElement Data)> Heard() =>
        [
            .. receiver.Messages.Select(m => new JsonEventFormatter().DecodeStructuredModeMessage(m.Body, new ContentType(m.ContentType), null))
                .Where(m => m.Subject == number).Select(m => (m.Type!, (JsonElement)m.Data!)),
        ];

        Task HeardAsync(params string[] types) => UntilAsync(() => types.All(t => Heard().Any(m => m.Type == t)));

        // Real seconds: the loops of the program turn by them.
        async Task UntilAsync(Func<bool> happened)
        {
            for (var i = 0; i < 1500 && !happened(); i++)
            {
                await Task.Delay(20);
            }

            Assert.True(happened(), $"Heard of it: {string.Join(", ", Heard().Select(m => m.Type))}; mails: {string.Join(", ", mail.Mails.Select(m => m.Subject))}");
        }

        static ScanRequest Reading(string sheetNumber, string machine) => new(Guid.NewGuid(), sheetNumber, machine, ScanAction.Next, "Olga", Confirmed: true) { Ticked = CheckLists.All };

        // The early shift has sheets in them.
        async Task FreeTheMachinesAsync()
        {
            await using var db = await services.GetRequiredService<IDbContextFactory<PlateRoomDb>>().CreateDbContextAsync();
            foreach (var running in await db.Stages.Where(s => s.State == StageState.Running).Select(s => new { s.Sheet!.Number, s.Equipment!.Slug }).ToListAsync())
            {
                var finish = await desk.RecordAsync(Reading(running.Number, running.Slug));
                Assert.True(finish.Accepted, finish.Sentence);
            }
        }

        async Task PassAsync(string sheetNumber, string machine)
        {
            var start = await desk.RecordAsync(Reading(sheetNumber, machine));
            Assert.True(start.Accepted, start.Sentence);
            var running = (await services.GetRequiredService<SheetQueries>().FindAsync(sheetNumber))!.Sheet.Stages.Single(s => s.State == StageState.Running);
            room.Clock.Advance(TimeSpan.FromSeconds(running.TotalSeconds));
            var finish = await desk.RecordAsync(Reading(sheetNumber, machine));
            Assert.True(finish.Accepted, finish.Sentence);
            room.Clock.Advance(TimeSpan.FromSeconds(running.RestAfterSeconds));
        }
    }
}

using System.Data.Common;
using System.Text.RegularExpressions;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging.Abstractions;
using Npgsql;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Exchange.Messages;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.History;

namespace PlateTickets.Tickets.Tests.Stations;

/// <summary>A room that is ten years old scans as fast as a new one: nothing of the daily work reads through what is past.</summary>
public partial class HistoryTests
{
    // These grow with every order and every scan, for ever.
    private static readonly string[] Growing =
        ["AuditEntries", "Deliveries", "DocumentTexts", "Orders", "Placements", "Plates", "ReceivedDocuments", "Remakes", "Scans", "Separations", "Sheets", "StageDecisions", "StageReadings", "Stages", "TicketEvents", "Tickets"];

    [Fact]
    public async Task ScansAndWhatPeopleHaveOpen_ReadByIndex_WhatGrows()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan", "Black"]);
        var sheet = Assert.Single(ticket.Sheets).Number;
        room.Watch.Start();
        foreach (var (_, machine) in RoomFixture.SolventRoute)
        {
            var (start, finish) = await room.PassAsync(sheet, machine);
            Assert.True(start.Accepted, start.Sentence);
            Assert.True(finish.Accepted, finish.Sentence);
        }

        // What people have open all day, and the plan.
        Assert.NotNull(await room.Sheets.FindAsync(sheet));
        Assert.NotNull(await room.Orders.FindAsync(ticket.Order.Number));
        Assert.NotNull(await new TicketHistory(room).FindAsync(ticket.Order.Number));
        await room.Orders.EarlierAsync(["0"]);
        Assert.NotEmpty((await room.Orders.ListAsync(done: true, 0, 50)).Lines);
        await room.OrderWaitingAsync(["Cyan"]);
        Assert.NotEmpty(await room.Layouts.MaterialsAsync());
        await room.StockShelf.ReadAsync();
        var second = await room.OrderAsync(["Black"]);
        Assert.NotEmpty((await room.Orders.ListAsync(done: false, 0, 50)).Lines);
        await room.Duty.HoldAsync(second.Ticket.Id, "a test", "test");
        await room.Duty.GoOnAsync(second.Ticket.Id, "test");
        await room.Board.ReloadAsync();
        await room.Plans.ReplanAsync();
        await room.Shift.RefreshAsync();
        await new TimelineQueries(room, room.Clock).AllAsync();
        // What goes out, looked for every second.
        var sender = new Exchange.FakeSender(DeliveryKind.Signal, 1, inOrder: true);
        var messages = new DeliveryDesk(room, [sender], new RoomMetrics(), room.Clock, NullLogger<DeliveryDesk>.Instance);
        Assert.NotEqual(0, await messages.FanOutAsync());
        Assert.NotEqual(0, await messages.SendDueAsync());
        Assert.NotEmpty(await new DeliveryBook(room, room.Clock).ListAsync(DeliveryState.Sent));
        await new OutlookWatch(room, room.Book, room.Clock).LookAsync();
        // Orders of other programs: taken, changed, asked about, given back.
        var folder = Path.Combine(Path.GetTempPath(), $"documents-{Guid.NewGuid():N}");
        var documents = new DocumentDesk(
            room, room.Rooms, room.Entry, new OrderChanges(room, room.Rooms, room.Events, room.Clock), new OrderCopies(room, room.Rooms, room.Layouts, room.Events), new DocumentShelf(folder), room.Clock);
        var jobs = new JobEntries(room, room.Book, room.Clock);
        var sent = await documents.TakeAsync(new DocumentArrival(DocumentDoor.Http, "Order desk", "order.xjdf", Exchange.XjdfText.Bytes(Exchange.XjdfText.Order())));
        await documents.TakeAsync(new DocumentArrival(DocumentDoor.Http, "Order desk", "order.xjdf", Exchange.XjdfText.Bytes(Exchange.XjdfText.Order(due: "2026-11-28T09:00:00Z"))));
        Assert.NotEmpty(await documents.ListAsync(waiting: false));
        Assert.Equal(0, await documents.CountWaitingAsync());
        Assert.NotNull(await documents.FindAsync(sent.Document.Id));
        Assert.Single(await jobs.ListAsync(new JobAsk()));
        Assert.NotNull(await new ReturnedXjdf(room, jobs, room.Clock).OfAsync(sent.Document.QueueEntryId));
        Directory.Delete(folder, recursive: true);
        room.Watch.Stop();
        Assert.InRange(room.Watch.Seen.Count, 100, 2000);
        await using DbConnection connection = TestDatabase.IsPostgreSql ? new NpgsqlConnection(room.Connection) : new SqliteConnection($"Data Source={room.File}");
        await connection.OpenAsync();
        await using (var set = connection.CreateCommand())
        {
            // In a small room PostgreSQL would rather read everything, which is right there: asked not to, it still must where no index serves.
            set.CommandText = TestDatabase.IsPostgreSql ? "SET enable_seqscan = off" : "PRAGMA query_only = ON";
            await set.ExecuteNonQueryAsync();
        }

        var wrong = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var (text, parameters) in room.Watch.Seen.DistinctBy(s => s.Text).Where(s => s.Text.StartsWith("SELECT", StringComparison.Ordinal) || (!TestDatabase.IsPostgreSql && s.Text.StartsWith("UPDATE", StringComparison.Ordinal))))
        {
            await using var explain = connection.CreateCommand();
            explain.CommandText = (TestDatabase.IsPostgreSql ? "EXPLAIN " : "EXPLAIN QUERY PLAN ") + text;
            explain.Parameters.AddRange(parameters);
            var tables = Named().Matches(text).ToLookup(m => m.Groups["as"].Value, m => m.Groups["table"].Value);
            await using var steps = await explain.ExecuteReaderAsync();
            while (await steps.ReadAsync())
            {
                var step = steps.GetString(steps.FieldCount - 1);
                // This index holds only the events that were not told yet.
                if (!step.Contains("IX_TicketEvents_Told", StringComparison.Ordinal) && Scanned().Match(step) is { Success: true } scan && tables[scan.Groups["name"].Value].Append(scan.Groups["name"].Value).Any(Growing.Contains))
                {
                    wrong.Add($"{step}: {text}");
                }
            }
        }

        Assert.True(wrong.Count == 0, string.Join("\n\n", wrong));
    }

    [GeneratedRegex("\"(?<table>\\w+)\" AS \"(?<as>\\w+)\"")]
    private static partial Regex Named();

    [GeneratedRegex("""^SCAN (?<name>\w+)|Seq Scan on "?(?<name>\w+)""")]
    private static partial Regex Scanned();
}

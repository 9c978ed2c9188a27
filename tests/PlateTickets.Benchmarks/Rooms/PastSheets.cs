using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Benchmarks.Rooms;

/// <summary>What a room has behind it: done sheets, each with its order, plate, stages and scans, copied in the database from one of its own.</summary>
internal static class PastSheets
{
    // Copies lie far behind what the room makes itself.
    private const int From = 1_000_000_000;
    private const int AtOnce = 100_000;
    private const int ScansPerStage = 2;
    private const string Past = "2020-01-01 08:00:00";

    public static async Task AddAsync(IDbContextFactory<PlateRoomDb> databases, int sheets)
    {
        await using var db = await databases.CreateDbContextAsync();
        db.Database.SetCommandTimeout(TimeSpan.FromHours(1));
        var model = await db.Sheets.AsNoTracking().Include(s => s.Stages).Include(s => s.Placements).ThenInclude(p => p.Plate).Where(s => s.State == SheetState.Waiting).OrderByDescending(s => s.Id).FirstAsync();
        var (plate, separation) = (model.Placements[0].Plate!, model.Placements[0].Plate!.SeparationId);
        var past = db.IsPostgreSql() ? $"TIMESTAMPTZ '{Past}Z'" : $"'{Past}'";
        var done = $"'{nameof(StageState.Done)}'";
        for (var begin = 0; begin < sheets; begin += AtOnce)
        {
            var range = (begin + From, Math.Min(sheets, begin + AtOnce) + From);
            await using var transaction = await db.BeginWriteAsync();
            await CopyAsync<Order>(db, range, $"t.\"Id\" = {plate.TicketId}", new() { ["Id"] = "n.i", ["Number"] = "'H' || n.i", ["DueUtc"] = past });
            await CopyAsync<Ticket>(db, range, $"t.\"Id\" = {plate.TicketId}", new() { ["Id"] = "n.i", ["State"] = done, ["DoneUtc"] = past });
            await CopyAsync<Separation>(db, range, $"t.\"Id\" = {separation}", new() { ["Id"] = "n.i", ["TicketId"] = "n.i" });
            await CopyAsync<Plate>(db, range, $"t.\"Id\" = {plate.Id}", new() { ["Id"] = "n.i", ["TicketId"] = "n.i", ["SeparationId"] = "n.i" });
            await CopyAsync<Sheet>(db, range, $"t.\"Id\" = {model.Id}", new() { ["Id"] = "n.i", ["Number"] = "'H' || n.i", ["State"] = done, ["CurrentStation"] = "NULL", ["MadeUtc"] = past, ["DoneUtc"] = past });
            await CopyAsync<Placement>(db, range, $"t.\"PlateId\" = {plate.Id}", new() { ["Id"] = "n.i", ["PlateId"] = "n.i", ["SheetId"] = "n.i" });
            for (var place = 0; place < model.Stages.Count; place++)
            {
                var stage = model.Stages[place];
                // Stages of one copy lie beside each other, as they were made.
                await CopyAsync<Stage>(db, range, $"t.\"Id\" = {stage.Id}", new() { ["Id"] = $"{From} + (n.i - {From}) * 10 + {place}", ["SheetId"] = "n.i", ["State"] = done, ["StartedUtc"] = past, ["FinishedUtc"] = past });
                for (var k = 0; k < ScansPerStage; k++)
                {
                    // Scattered over the index, as random numbers are.
                    var id = db.IsPostgreSql() ? "gen_random_uuid()" : $"printf('%08X-{place:0000}-{k:0000}-0000-%012X', (n.i * 2654435761) & 4294967295, n.i)";
                    var scans = $"""
                        INSERT INTO "Scans" ("Id", "Action", "By", "ClockBehindSeconds", "Code", "Confirmed", "EquipmentId", "Of", "Offline", "Outcome", "ReadUtc", "ReceivedUtc", "Sentence", "SheetId", "Station", "Ticked")
                        WITH RECURSIVE n(i) AS (SELECT {range.Item1} UNION ALL SELECT i + 1 FROM n WHERE i + 1 < {range.Item2})
                        SELECT {id}, 'Start', 'Benchmark', 0, 'H' || n.i, {(db.IsPostgreSql() ? "FALSE" : "0")}, e."Id", '', {(db.IsPostgreSql() ? "FALSE" : "0")}, 'Started', {past}, {past},
                            'Imaging of sheet started on Imager A. Run 12 min 30 s.', n.i, '{stage.Station}', {TickedText()}
                        FROM n CROSS JOIN (SELECT MIN("Id") AS "Id" FROM "Equipment") AS e
                        """;
                    await db.Database.ExecuteSqlRawAsync(scans);
                }
            }

            await transaction.CommitAsync();
        }

        if (db.IsPostgreSql())
        {
            // Its own housekeeping would have done it long ago.
            await db.Database.ExecuteSqlRawAsync("ANALYZE");
        }

        string TickedText() => db.Model.FindEntityType(typeof(Scan))!.FindProperty(nameof(Scan.Ticked))!.GetTypeMapping().Converter?.ProviderClrType == typeof(string) ? "'None'" : "0";
    }

    private static Task CopyAsync<T>(PlateRoomDb db, (int From, int To) range, string which, Dictionary<string, string> changed)
    {
        var type = db.Model.FindEntityType(typeof(T))!;
        var table = StoreObjectIdentifier.Table(type.GetTableName()!);
        var columns = type.GetProperties().Select(p => p.GetColumnName(table)).OfType<string>().ToList();
        var values = columns.Select(c => changed.TryGetValue(c, out var value) ? value : $"t.\"{c}\"");
        return db.Database.ExecuteSqlRawAsync(string.Create(CultureInfo.InvariantCulture, $"""
            INSERT INTO "{table.Name}" ({string.Join(", ", columns.Select(c => $"\"{c}\""))})
            WITH RECURSIVE n(i) AS (SELECT {range.From} UNION ALL SELECT i + 1 FROM n WHERE i + 1 < {range.To})
            SELECT {string.Join(", ", values)} FROM n CROSS JOIN "{table.Name}" AS t WHERE {which}
            """));
    }
}

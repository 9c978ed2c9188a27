using System.Globalization;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Orders.Lists;

/// <summary>Orders and how far their tickets are as CSV (RFC 4180). The columns of an order are those that <see cref="OrderImport"/> reads.</summary>
public static class OrderCsv
{
    public static string Write(IEnumerable<OrderLine> lines, TimeZoneInfo zone)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var csv = new Csv(text))
        {
            csv.Row(
                "ticket", OrderList.Customer, OrderList.Title, OrderList.Press, OrderList.Repeat, OrderList.Material, OrderList.Due, OrderList.Copies,
                "state", "plates", "sheets", "sheets done", "plates made again", "planned done", "done");
            foreach (var line in lines)
            {
                csv.Row(
                    TrackingNumber.ForPeople(line.Number), line.Customer, line.Title, line.Press, (line.RepeatUm / 1000.0).ToString("0.###", CultureInfo.InvariantCulture), line.Material,
                    Time(line.DueUtc, zone), $"{line.Copies}", Words(line.State), $"{line.Plates}", $"{line.Sheets}", $"{line.SheetsDone}", $"{line.Remakes}", Time(line.PlannedDoneUtc, zone), Time(line.DoneUtc, zone));
            }
        }

        return text.ToString();
    }

    /// <summary>A list to fill in: the names of the columns and two orders with presses of the room.</summary>
    public static string Example(Room room, DateTime nowUtc)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var csv = new Csv(text))
        {
            csv.Row([.. OrderList.Columns]);
            var due = Time(nowUtc.Date.AddDays(2).AddHours(12), room.Zone);
            if (room.Presses.FirstOrDefault(p => p.Cylinders.Count > 0) is { } press)
            {
                var material = room.Materials[press.UsualMaterialId].Name;
                csv.Row("A customer", "Job by cylinder", press.Name, press.Cylinders[0].Name, "", material, due, "1");
                csv.Row("A customer", "Job by repeat", press.Name, "", (press.Cylinders[0].RepeatUm / 1000.0).ToString("0.###", CultureInfo.InvariantCulture), "", due, "2");
            }
        }

        return text.ToString();
    }

    /// <summary>In the site's time, as spreadsheets know it; with its offset in the hour that clocks show twice.</summary>
    private static string Time(DateTime? utc, TimeZoneInfo zone)
    {
        if (utc is not { } moment)
        {
            return "";
        }

        var local = SiteClock.Local(moment, zone);
        return zone.IsAmbiguousTime(local)
            ? new DateTimeOffset(local, zone.GetUtcOffset(DateTime.SpecifyKind(moment, DateTimeKind.Utc))).ToString("yyyy-MM-ddTHH:mm:sszzz", CultureInfo.InvariantCulture)
            : local.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
    }

    private static string Words(TicketState state) => state switch
    {
        TicketState.WaitingForFiles => "waits for its files",
        TicketState.WaitingForLayout => "waits for its layout",
        TicketState.Ready => "ready",
        TicketState.InWork => "in work",
        TicketState.Done => "done",
        _ => "cancelled",
    };
}

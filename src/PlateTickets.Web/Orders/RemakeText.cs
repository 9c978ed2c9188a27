using PlateTickets.Process;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Orders;

/// <summary>Says in words what is made again and why, and what it cost.</summary>
internal static class RemakeText
{
    public static string Say(RemakeLine line, Room room, DateTime nowUtc)
    {
        var plate = line.Copy > 1 ? $"{line.Colour} (copy {line.Copy})" : line.Colour;
        var words = line.Reason.Length > 0 ? $", {line.Reason.TrimEnd('.')}" : "";
        var where = line.NewSheet is null ? line.Done ? "" : " The new plate waits for a sheet." : line.Done ? " The new plate is done, on sheet" : " The new plate is on sheet";
        return $"{plate} of sheet {TrackingNumber.ForPeople(line.SheetNumber)}: {line.Defect.Title()}{words}; caused at {Place(line.CausedAt)}, found at {Place(line.FoundAt)} {SiteClock.Near(line.AtUtc, nowUtc, room.Zone)} by {line.By}.{where}";
    }

    public static string Cost(RemakeLine line) => $"It cost {Numbers.ForPeople(line.AreaUm2 / 1e8, 0)} cm² of material and {Durations.ForPeople(line.SpentSeconds)} of work.";

    private static string Place(Station? station) => station?.Title().ToLowerInvariant() ?? "a place outside of the plate room";
}

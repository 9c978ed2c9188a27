using PlateTickets.Process;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Stations;

/// <summary>The outcome and the sentence for the person at the station.</summary>
internal sealed record ScanVerdict(ScanOutcome Outcome, string Sentence, Station? Station = null);

/// <summary>What every rule must know of the reading that it decides on.</summary>
internal sealed record ScanContext(PlateRoomDb Db, ScanFacts Facts, Room Room, Equipment Equipment, ScanRequest Request, DateTime NowUtc)
{
    /// <summary>When it was read.</summary>
    public DateTime Utc => Request.ReadUtc ?? NowUtc;

    /// <summary>Says that who scanned changes these.</summary>
    public void ActsOn(params ReadOnlySpan<object> records) => Db.ActsOn(Request.By, records);

    public string On(Stage next) => Room.EquipmentById(next.EquipmentId) is { } planned ? $", planned on {planned.Name}" : "";

    public string Left(DateTime until) => Durations.ForPeople(Math.Max(1, (until - Utc).TotalSeconds));

    public string Ends(DateTime over) => Utc < over
        ? $"It runs until {SiteClock.Near(over, NowUtc, Room.Zone)}."
        : "Its time is over: press Finish.";
}

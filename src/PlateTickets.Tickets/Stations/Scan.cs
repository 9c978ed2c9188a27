using PlateTickets.Process;

namespace PlateTickets.Tickets.Stations;

/// <summary>What the person at the station wants.</summary>
public enum ScanAction
{
    /// <summary>Start a waiting stage, finish a running one.</summary>
    Next = 1,
    Start = 2,
    Finish = 3,
}

/// <summary>What came of a scan. Everything from <see cref="Misread"/> on is a refusal: it is recorded and changes nothing else.</summary>
public enum ScanOutcome
{
    Started = 1,
    Finished = 2,

    /// <summary>The code holds a reading error.</summary>
    Misread = 10,

    /// <summary>Not one of our numbers at all.</summary>
    NotANumber = 11,

    /// <summary>A ticket's number instead of a sheet's.</summary>
    TicketNumber = 12,

    /// <summary>A good number that no sheet has.</summary>
    UnknownSheet = 13,

    /// <summary>The sheet belongs to another station now.</summary>
    WrongStation = 14,

    /// <summary>The stage runs already, here or elsewhere.</summary>
    AlreadyRunning = 15,

    /// <summary>The stage, or the whole sheet, is finished already.</summary>
    AlreadyFinished = 16,

    OnHold = 17,

    /// <summary>The machine is full.</summary>
    MachineBusy = 18,

    /// <summary>The computed time or the rest is not over; a person may confirm.</summary>
    TooEarly = 19,

    /// <summary>Finish without a start.</summary>
    NotStarted = 20,

    /// <summary>This machine cannot do this material.</summary>
    WrongEquipment = 21,

    /// <summary>The reader's clock is wrong.</summary>
    WrongClock = 22,

    /// <summary>The machine's time cannot be computed, such as a frame whose lamps were never read.</summary>
    NoTime = 23,
}

/// <summary>One reading of a traveler at a station. Append-only: never changed, never deleted; the id is made where it was read.</summary>
public sealed class Scan
{
    public Guid Id { get; set; }

    /// <summary>What was read, cleaned, at most 40 characters.</summary>
    public required string Code { get; set; }

    public int? SheetId { get; set; }

    public int EquipmentId { get; set; }

    public Station? Station { get; set; }

    public ScanAction Action { get; set; }

    /// <summary>True when a person confirmed that the time is not over.</summary>
    public bool Confirmed { get; set; }

    public required string By { get; set; }

    /// <summary>When it was read, by the reader's clock.</summary>
    public DateTime ReadUtc { get; set; }

    public DateTime ReceivedUtc { get; set; }

    public ScanOutcome Outcome { get; set; }

    /// <summary>The sentence that the person was told.</summary>
    public required string Sentence { get; set; }
}

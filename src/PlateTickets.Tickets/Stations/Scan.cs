using PlateTickets.Process;
using PlateTickets.Process.Recipes;

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

    /// <summary>The drawer of a sheet is known now.</summary>
    DrawerSet = 3,

    /// <summary>The lot is the planned one.</summary>
    LotRight = 4,

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

    /// <summary>Points of the check list must be ticked before the start.</summary>
    ChecksOpen = 24,

    /// <summary>It lay longer than its recipe allows; a lead decides.</summary>
    WaitedTooLong = 25,

    /// <summary>A reading is out of limits and nobody has decided yet.</summary>
    ReadingOpen = 26,

    /// <summary>Another lot than planned.</summary>
    OtherLot = 27,

    /// <summary>Another sheet lies in that drawer.</summary>
    DrawerTaken = 28,

    /// <summary>A drawer's code without a sheet that it could be for, or a drawer of another machine.</summary>
    DrawerAlone = 29,

    /// <summary>The machine is marked down; it is in use again once somebody says so, or a person may confirm.</summary>
    MachineDown = 30,
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

    /// <summary>True when a person confirmed that the time is not over, or that a machine that is marked down works.</summary>
    public bool Confirmed { get; set; }

    /// <summary>The sheet that was read before it, when the code is a drawer's or a lot's; empty else.</summary>
    public string Of { get; set; } = "";

    /// <summary>The points of the check list that were ticked.</summary>
    public CheckPoint Ticked { get; set; }

    /// <summary>Read without a connection and delivered later.</summary>
    public bool Offline { get; set; }

    /// <summary>By how many seconds the reader's clock was behind ours; below zero when it ran ahead. <see cref="ReadUtc"/> is corrected by it.</summary>
    public int ClockBehindSeconds { get; set; }

    public required string By { get; set; }

    /// <summary>When it was read.</summary>
    public DateTime ReadUtc { get; set; }

    public DateTime ReceivedUtc { get; set; }

    public ScanOutcome Outcome { get; set; }

    /// <summary>The sentence that the person was told.</summary>
    public required string Sentence { get; set; }
}

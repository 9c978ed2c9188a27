using PlateTickets.Process;
using PlateTickets.Tickets.Quality;

namespace PlateTickets.Tickets.Handovers;

/// <summary>What the room was like when a shift was handed over. Times are UTC; each list holds at most <see cref="Most"/> lines.</summary>
public sealed record HandoverFacts
{
    public const int Most = 300;

    /// <summary>When the facts were read.</summary>
    public DateTime AtUtc { get; init; }

    /// <summary>Until when what was finished counts to this shift: its end, or the time of reading.</summary>
    public DateTime CountedToUtc { get; init; }

    public IReadOnlyList<FinishedAtStation> Finished { get; init; } = [];

    /// <summary>Tickets whose last plate was finished.</summary>
    public IReadOnlyList<DoneTicket> Tickets { get; init; } = [];

    /// <summary>Sheets at work in machines, by the end of their run.</summary>
    public IReadOnlyList<RunningOn> Running { get; init; } = [];

    /// <summary>Sheets that wait, by due-by.</summary>
    public IReadOnlyList<WaitingFor> Waiting { get; init; } = [];

    /// <summary>How many wait, also those beyond the list.</summary>
    public int WaitingCount { get; init; }

    public IReadOnlyList<EndangeredTicket> Endangered { get; init; } = [];

    public IReadOnlyList<MachineDown> Down { get; init; } = [];

    /// <summary>Plates made again in this shift.</summary>
    public IReadOnlyList<ShiftRemake> Remakes { get; init; } = [];

    public IReadOnlyList<OpenHold> Holds { get; init; } = [];
}

/// <summary>Stages finished at a station in the shift, and how many were meant; null where no goal was taken.</summary>
public sealed record FinishedAtStation(Station Station, int Sheets, int? Goal);

public sealed record DoneTicket(string Number, string Customer, string Title, DateTime DoneUtc, DateTime DueUtc);

/// <summary>A sheet that is at work. <paramref name="Overnight"/>: its run ends after the shift.</summary>
public sealed record RunningOn(string Sheet, string Customer, string Title, Station Station, string Machine, int? Drawer, DateTime EndsUtc, bool Overnight);

public sealed record WaitingFor(string Sheet, string Customer, string Title, Station Station, DateTime? DueByUtc, DateTime? PlannedStartUtc);

/// <summary>A ticket that is late or at risk; <paramref name="Why"/> goes on after "it".</summary>
public sealed record EndangeredTicket(string Number, string Customer, string Title, bool IsLate, double? Chance, DateTime DueUtc, DateTime? PlannedUtc, string Why);

public sealed record MachineDown(string Machine, DateTime FromUtc, DateTime ToUtc, string Reason);

public sealed record ShiftRemake(string Ticket, string Customer, string Colour, PlateDefect Defect, Station? FoundAt, string Reason, string By, DateTime AtUtc);

/// <summary>A sheet on hold, or a reading out of limits that nobody has decided about.</summary>
public sealed record OpenHold(string Sheet, string Customer, string Title, string Reason);

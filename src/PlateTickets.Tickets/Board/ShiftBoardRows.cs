using System.Collections.Immutable;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;

namespace PlateTickets.Tickets.Board;

/// <summary>One station in the shift.</summary>
/// <param name="Station">Which.</param>
/// <param name="Running">Sheets at work there.</param>
/// <param name="Waiting">Sheets whose next stage it is.</param>
/// <param name="OnHold">Sheets on hold before it.</param>
/// <param name="Finished">Stages that were finished in this shift.</param>
/// <param name="Goal">What the shift should finish, by the plan at its beginning; null when that is not known.</param>
/// <param name="Expected">What the newest plan expects to be finished when the shift ends.</param>
public sealed record StationRow(Station Station, int Running, int Waiting, int OnHold, int Finished, int? Goal, int Expected)
{
    /// <summary>By how many sheets the shift will miss its goal, as things stand.</summary>
    public int Behind => Goal is { } goal ? Math.Max(0, goal - Expected) : 0;
}

/// <summary>A ticket that is late or at risk.</summary>
/// <param name="TicketId">Which.</param>
/// <param name="Number">Its number.</param>
/// <param name="Customer">Whose.</param>
/// <param name="Title">The job.</param>
/// <param name="Lateness">Late or at risk.</param>
/// <param name="Spare">Due time minus planned finish, whole minutes; null before the first plan.</param>
/// <param name="Chance">Chance to be late to five percent; null before the first simulation.</param>
/// <param name="Due">In words.</param>
/// <param name="Planned">In words.</param>
/// <param name="Where">Where its last sheet is, in words.</param>
/// <param name="Why">The reason in words, as it goes on after "it"; empty when there is none yet.</param>
/// <param name="Help">What would help, in words; empty until it was tried.</param>
/// <param name="IsRush">It goes before others already.</param>
/// <param name="CanHold">A sheet of it waits and could be set aside.</param>
public sealed record UrgentRow(
    int TicketId, string Number, string Customer, string Title, Lateness Lateness, TimeSpan? Spare, double? Chance, string Due, string Planned,
    string Where, string Why, string Help, bool IsRush, bool CanHold);

/// <summary>One machine.</summary>
/// <param name="EquipmentId">Which.</param>
/// <param name="Name">Its name.</param>
/// <param name="Slug">Its place in addresses.</param>
/// <param name="IsDown">Down now.</param>
/// <param name="State">What it does, or until when it is down and why.</param>
/// <param name="Soon">A downtime to come, in words; mostly empty.</param>
public sealed record MachineRow(int EquipmentId, string Name, string Slug, bool IsDown, string State, string Soon);

/// <summary>The load of one hour: which share of the machines' time is taken.</summary>
/// <param name="Percent">Of the capacity, to five; null when the machines are down, or nobody is there and nothing runs.</param>
/// <param name="Closed">Nobody is there to load.</param>
public readonly record struct LoadCell(int? Percent, bool Closed);

/// <summary>The load of the machines that can stand in for each other, by hour.</summary>
/// <param name="Key">Names the row.</param>
/// <param name="Title">The stations, and the machine where a station has several kinds.</param>
/// <param name="Machines">Which machines.</param>
/// <param name="Cells">One for each of the board's hours.</param>
public sealed record LoadRow(string Key, string Title, string Machines, ImmutableArray<LoadCell> Cells)
{
    public bool Equals(LoadRow? other) =>
        other is not null && Key == other.Key && Title == other.Title && Machines == other.Machines && Cells.AsSpan().SequenceEqual(other.Cells.AsSpan());

    public override int GetHashCode() => HashCode.Combine(Key, Cells.Length);
}

/// <summary>A plate made again today.</summary>
public sealed record RemakeRow(int Id, string TicketNumber, string Customer, string Colour, string Defect, string Found, string At);

/// <summary>A lamp reading or a step test that is due, or will be soon.</summary>
/// <param name="Key">Names the row.</param>
/// <param name="Text">What is to be done.</param>
/// <param name="When">"overdue since …", "due …".</param>
/// <param name="IsOverdue">The time is over.</param>
public sealed record CheckRow(string Key, string Text, string When, bool IsOverdue);

/// <summary>A ticket with sheets on hold.</summary>
public sealed record HoldRow(int TicketId, string Number, string Customer, string Title, int Sheets, string Reason);

/// <summary>The head of the board.</summary>
/// <param name="Shift">The shift at work, or the next; null where there are no shifts.</param>
/// <param name="AtWork">The shift has begun.</param>
/// <param name="ShiftText">"Early shift, until 14:00".</param>
/// <param name="GoalText">Which plan the goals come from; empty without goals.</param>
/// <param name="People">Who is on duty, in words.</param>
/// <param name="Late">Tickets that are late.</param>
/// <param name="AtRisk">Tickets that are at risk.</param>
/// <param name="Open">Open sheets.</param>
/// <param name="Done">Sheets done in this shift.</param>
public sealed record BoardHead(
    ShiftDay? Shift, bool AtWork, string ShiftText, string GoalText, string People, int Late, int AtRisk, int Open, int Done);

/// <summary>Everything that a board shows, made once for all who look through the same filter. A row that did not change is the same object as before.</summary>
public sealed record ShiftBoardView
{
    public required BoardFilter Filter { get; init; }

    /// <summary>The whole minute that it was made in.</summary>
    public required DateTime MinuteUtc { get; init; }

    public required BoardHead Head { get; init; }

    public required ImmutableArray<StationRow> Stations { get; init; }

    /// <summary>Late first, by how much; then at risk, by chance.</summary>
    public required ImmutableArray<UrgentRow> Urgent { get; init; }

    public required ImmutableArray<MachineRow> Machines { get; init; }

    /// <summary>The begin of each hour of <see cref="Load"/>, in words.</summary>
    public required ImmutableArray<string> Hours { get; init; }

    /// <summary>Of the whole room, whatever the filter.</summary>
    public required ImmutableArray<LoadRow> Load { get; init; }

    public required ImmutableArray<RemakeRow> Remakes { get; init; }

    public required ImmutableArray<CheckRow> Checks { get; init; }

    public required ImmutableArray<HoldRow> Holds { get; init; }

    /// <summary>The sheets by station: those at work, then those that wait, in the plan's order.</summary>
    public required ImmutableArray<StationSheets> Sheets { get; init; }

    /// <summary>What can be chosen in the filter.</summary>
    public required BoardChoices Choices { get; init; }
}

/// <summary>The sheets of a station. The same object as before while none of them changed and the minute is the same.</summary>
public sealed record StationSheets(Station Station, ImmutableArray<BoardSheet> Running, ImmutableArray<BoardSheet> Waiting)
{
    public bool Equals(StationSheets? other) => other is not null && Station == other.Station && Same(Running, other.Running) && Same(Waiting, other.Waiting);

    public override int GetHashCode() => HashCode.Combine(Station, Running.Length, Waiting.Length);

    private static bool Same(ImmutableArray<BoardSheet> a, ImmutableArray<BoardSheet> b)
    {
        for (var i = 0; i < a.Length && a.Length == b.Length; i++)
        {
            if (!ReferenceEquals(a[i], b[i]))
            {
                return false;
            }
        }

        return a.Length == b.Length;
    }
}

/// <summary>Customers, presses and materials with open sheets.</summary>
public sealed record BoardChoices(ImmutableArray<string> Customers, ImmutableArray<string> Presses, ImmutableArray<string> Materials)
{
    public bool Equals(BoardChoices? other) =>
        other is not null && Customers.SequenceEqual(other.Customers) && Presses.SequenceEqual(other.Presses) && Materials.SequenceEqual(other.Materials);

    public override int GetHashCode() => HashCode.Combine(Customers.Length, Presses.Length, Materials.Length);
}

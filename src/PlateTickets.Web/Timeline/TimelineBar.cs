using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Web.Timeline;

/// <summary>One stage as drawn: its shapes in pixels of its row, and its words. Equal bars look the same, so a row of equal bars is not drawn again.</summary>
public sealed record TimelineBar
{
    public required int StageId { get; init; }

    public required string Sheet { get; init; }

    public required StageState State { get; init; }

    public required Lateness Lateness { get; init; }

    public required bool Found { get; init; }

    public required int Lane { get; init; }

    public required BarShape Shape { get; init; }

    /// <summary>What is written in the run part; empty where it does not fit.</summary>
    public required string Label { get; init; }

    /// <summary>All that a screen reader says.</summary>
    public required string Spoken { get; init; }

    /// <summary>A line for each ticket: number, tab, customer and title.</summary>
    public required string Tickets { get; init; }

    public required string What { get; init; }

    public required string When { get; init; }

    public required string DueBy { get; init; }

    public required string Slack { get; init; }

    public required string LatenessText { get; init; }

    public string Classes => $"tl-bar {StateWord} {Lateness.ToString().ToLowerInvariant()}{(Found ? " found" : "")}";

    public string StateWord => State switch
    {
        StageState.Done => "done",
        StageState.Running => "running",
        _ => "planned",
    };
}

/// <summary>A time in which a machine is down, in pixels of its row.</summary>
public sealed record TimelineDown(double X, double Width, string Text);

/// <summary>A machine with its bars.</summary>
public sealed record TimelineRowModel(int MachineId, string Machine, int LaneCount, TimelineScale Scale, IReadOnlyList<TimelineBar> Bars)
{
    public IReadOnlyList<TimelineDown> Down { get; init; } = [];

    /// <summary>A row is high enough for its machine's name on two lines.</summary>
    public int Height => Math.Max(40, (LaneCount * BarShape.LaneHeight) + 6);

    public bool LooksLike(TimelineRowModel? other) =>
        other is not null && Machine == other.Machine && LaneCount == other.LaneCount && Scale == other.Scale && Bars.SequenceEqual(other.Bars) && Down.SequenceEqual(other.Down);
}

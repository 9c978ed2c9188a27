using PlateTickets.Process;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Sheets;

public enum StageState
{
    Waiting = 1,
    Running = 2,
    Done = 3,
}

/// <summary>One sheet's pass through one station: what the plan expects and what has happened.</summary>
public sealed class Stage
{
    public int Id { get; set; }

    public int SheetId { get; set; }

    public Sheet? Sheet { get; set; }

    public Station Station { get; set; }

    public StageState State { get; set; } = StageState.Waiting;

    /// <summary>The planned machine; once started, the machine it really runs on.</summary>
    public int? EquipmentId { get; set; }

    public Equipment? Equipment { get; set; }

    public int LoadSeconds { get; set; }

    public int RunSeconds { get; set; }

    public int UnloadSeconds { get; set; }

    /// <summary>True where a person works through the whole run: it needs working time, and may end sooner.</summary>
    public bool RunIsAttended { get; set; }

    /// <summary>For how much of the run the machine cannot take the next sheet; less than the run in a line.</summary>
    public int OccupiesSeconds { get; set; }

    /// <summary>Least wait in seconds before the next stage.</summary>
    public int RestAfterSeconds { get; set; }

    /// <summary>The one line that explains the run time on that machine.</summary>
    public string Explanation { get; set; } = "";

    /// <summary>What to be careful about, one sentence a line; mostly empty.</summary>
    public string Flags { get; set; } = "";

    public DateTime? PlannedStartUtc { get; set; }

    public DateTime? PlannedFinishUtc { get; set; }

    /// <summary>Latest finish that still keeps the promise.</summary>
    public DateTime? DueByUtc { get; set; }

    public DateTime? StartedUtc { get; set; }

    public string StartedBy { get; set; } = "";

    public DateTime? FinishedUtc { get; set; }

    public string FinishedBy { get; set; } = "";

    /// <summary>The drawer that the sheet lies in, 1 or more; null elsewhere and until it is scanned.</summary>
    public int? Drawer { get; set; }

    /// <summary>Why the stage was passed over or broken off; empty for work that was done. Its times say nothing about the station.</summary>
    public string SkippedBecause { get; set; } = "";

    /// <summary>How often it was done before and had to be done again.</summary>
    public int Repeats { get; set; }

    public int TotalSeconds => LoadSeconds + RunSeconds + UnloadSeconds;
}

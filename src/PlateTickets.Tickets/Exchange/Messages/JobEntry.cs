using PlateTickets.Process;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Exchange.Messages;

/// <summary>One pass of a job's sheet through a station.</summary>
public sealed record JobPass(int SheetId, Station Station, StageState State, int Seconds, DateTime? StartedUtc, string StartedBy);

/// <summary>A plate that counts for the job, with the sheet that it lies on.</summary>
public sealed record JobPlate(string Colour, int? SheetId, SheetState? SheetState);

/// <summary>A job as other programs see it: its newest document, its ticket and how far the sheets are.</summary>
/// <param name="Document">The newest document of the job.</param>
/// <param name="FirstUtc">When the first came.</param>
/// <param name="Ticket">Null while no order is entered.</param>
/// <param name="Plates">Of the set.</param>
/// <param name="Passes">Of its sheets.</param>
/// <param name="Remakes">Plates that were spoilt and are made again.</param>
/// <param name="Lateness">Whether it comes late.</param>
public sealed record JobEntry(
    ReceivedDocument Document, DateTime FirstUtc, Ticket? Ticket, IReadOnlyList<JobPlate> Plates, IReadOnlyList<JobPass> Passes, int Remakes, Lateness Lateness)
{
    /// <summary>NodeInfo/@Status, QueueEntry/@Status, JobPhase/@Status (XJDF 2.2, 9.2).</summary>
    public string Status => Ticket switch
    {
        null => Document.State == DocumentState.SetAside ? "Aborted" : "Waiting",
        { State: TicketState.Done } => "Completed",
        { State: TicketState.Cancelled } => "Aborted",
        { State: TicketState.InWork } => IsOnHold ? "Suspended" : "InProgress",
        _ => "Waiting",
    };

    /// <summary>StatusDetails (XJDF 2.2, A.3.21); the stations have tokens of our own, since the standard knows none of plate making.</summary>
    public string Details => Ticket switch
    {
        null => Document.State == DocumentState.SetAside ? "JobCanceledByOperator" : "JobUserInputRequired",
        { State: TicketState.Done } => "",
        { State: TicketState.Cancelled } => "JobCanceledByOperator",
        { State: TicketState.WaitingForFiles } => Document switch
        {
            { StartsHeld: true } => "JobHeldOnCreate",
            { State: DocumentState.Held } => "JobUserInputRequired",
            { FilesOpen: > 0 } => "JobIncoming",
            _ => "JobMissResources",
        },
        { State: TicketState.WaitingForLayout } => "JobScheduling",
        { State: TicketState.InWork } => IsOnHold ? "JobSuspended" : Running?.Station.ToString() ?? "QueuedToRun",
        _ => IsOnHold ? "JobHeld" : "QueuedToRun",
    };

    /// <summary>QueueEntry/@Activation.</summary>
    public string Activation => Ticket?.State is TicketState.Done or TicketState.Cancelled || (Ticket is null && Document.State == DocumentState.SetAside) ? "Removed"
        : IsOnHold || Document.StartsHeld ? "Held"
        : "Active";

    /// <summary>The pass that is furthest on and runs.</summary>
    public JobPass? Running => Passes.Where(p => p.State == StageState.Running).MaxBy(p => p.Station);

    public DateTime? StartedUtc => Passes.Min(p => p.StartedUtc);

    public int Made => Plates.Count(p => p.SheetState == SheetState.Done);

    /// <summary>Share of the stages' planned work that is done, 0 to 100.</summary>
    public int Percent => Ticket?.State == TicketState.Done ? 100
        : Passes.Sum(p => p.Seconds) is var all and > 0 ? Math.Min(99, (int)(100L * Passes.Where(p => p.State == StageState.Done).Sum(p => p.Seconds) / all))
        : 0;

    /// <summary>JobPhase/@DeadLine.</summary>
    public string DeadLine => Lateness switch { Lateness.Late => "Late", Lateness.AtRisk => "Warning", _ => "InTime" };

    private bool IsOnHold
    {
        get
        {
            var open = Plates.Where(p => p.SheetState is SheetState.Waiting or SheetState.Running or SheetState.OnHold).ToList();
            return open.Count > 0 && open.TrueForAll(p => p.SheetState == SheetState.OnHold);
        }
    }
}

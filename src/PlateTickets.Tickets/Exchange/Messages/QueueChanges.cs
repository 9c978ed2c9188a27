using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Exchange.Xjdf;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations.Duty;

namespace PlateTickets.Tickets.Exchange.Messages;

/// <summary>What another program may do to its job while it waits or is made (ModifyQueueEntry, XJDF 2.2, 9.8.1). Exposed plates are given up by a person only.</summary>
public sealed class QueueChanges(IDbContextFactory<PlateRoomDb> databases, DocumentDesk documents, DutyDesk duty, OrderChanges orders)
{
    /// <returns>The return code and a sentence.</returns>
    /// <exception cref="PlateRoomException">It cannot be done now.</exception>
    public Task<(int Code, string Sentence)> MakeAsync(JobEntry job, string operation, int? priority, string by, CancellationToken cancel = default) => job.Status is "Completed" or "Aborted"
        ? Task.FromResult((ReturnCodes.EntryIsOver, "It is over: nothing of it can change."))
        : operation switch
        {
            "Hold" or "Suspend" => HoldAsync(job, by, cancel),
            "Resume" => ResumeAsync(job, by, cancel),
            "Abort" or "Remove" => AbortAsync(job, by, cancel),
            "Move" => MoveAsync(job, priority, by, cancel),
            _ => Task.FromResult((ReturnCodes.NotImplemented, $"Operation “{operation.Cut(40)}” is not done here: Hold, Suspend, Resume, Abort, Remove and Move are.")),
        };

    private async Task<(int, string)> HoldAsync(JobEntry job, string by, CancellationToken cancel)
    {
        if (job.Ticket is not { } ticket || ticket.State is TicketState.WaitingForFiles)
        {
            await SetAsync(
                job,
                d =>
                {
                    d.StartsHeld = true;
                    d.Sentence = d.State == DocumentState.Done ? DocumentDesk.Entered(d) : d.Sentence;
                },
                by, cancel);
            return (ReturnCodes.Success, "On hold: its plates are not laid out until it is resumed.");
        }

        var held = await duty.HoldAsync(ticket.Id, $"{by} wishes it", by, cancel: cancel);
        return (ReturnCodes.Success, held == 1 ? "1 sheet is on hold." : $"{held} sheets are on hold.");
    }

    private async Task<(int, string)> ResumeAsync(JobEntry job, string by, CancellationToken cancel)
    {
        if (job.Document.StartsHeld)
        {
            await documents.GoOnFromHoldAsync(job.Document.Id, by, cancel);
            return (ReturnCodes.Success, "It goes on.");
        }

        if (job.Ticket is not { } ticket)
        {
            return (ReturnCodes.Success, "It was not on hold.");
        }

        var going = await duty.GoOnAsync(ticket.Id, by, cancel: cancel);
        return (ReturnCodes.Success, going == 0 ? "It was not on hold." : "It goes on.");
    }

    private async Task<(int, string)> AbortAsync(JobEntry job, string by, CancellationToken cancel)
    {
        if (job.Ticket is not { } ticket)
        {
            await documents.SetAsideAsync(job.Document.Id, "its sender took it back", by, cancel);
            return (ReturnCodes.Success, "Taken back before anything was entered.");
        }

        if (job.Passes.Any(p => p.StartedUtc is not null))
        {
            await SetAsync(
                job, d => (d.State, d.Sentence) = (DocumentState.Held, $"{by} wants the job aborted, and plates of it are in work. Cancel ticket {TrackingNumber.ForPeople(ticket.Order!.Number)} on its page if that is right, then set this aside."), by, cancel);
            return (ReturnCodes.AskedPerson, "Plates of it are in work already: a person in the plate room is asked.");
        }

        await orders.CancelAsync(ticket.Order!.Number, $"{by} took the job back", by, cancel);
        return (ReturnCodes.Success, "Cancelled.");
    }

    private async Task<(int, string)> MoveAsync(JobEntry job, int? priority, string by, CancellationToken cancel)
    {
        if (priority is not { } wanted)
        {
            return (ReturnCodes.NotImplemented, "Jobs are planned by their due times, so places in the queue are not kept: send Priority, or another due time.");
        }

        await SetAsync(job, d => d.Priority = Math.Min(wanted, 100), by, cancel);
        return (ReturnCodes.Success, "The priority is noted for people. The plan follows the due time: send another one to change the order of work.");
    }

    private async Task SetAsync(JobEntry job, Action<ReceivedDocument> change, string by, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        change(await db.ReceivedDocuments.SingleAsync(d => d.Id == job.Document.Id, cancel));
        await db.SaveChangesAsync(cancel);
        documents.TellChanged();
    }
}

using System.IO.Compression;
using System.Xml.Linq;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;
using static PlateTickets.Tickets.Exchange.Messages.XjmfText;
using static PlateTickets.Tickets.Exchange.Xjdf.XjdfNames;

namespace PlateTickets.Tickets.Exchange.Messages;

/// <summary>Writes what became of a job: the XJDF with its audits in the order of time (XJDF 2.2, 3.10), from the same events that signals are made of.</summary>
public sealed class ReturnedXjdf(IDbContextFactory<PlateRoomDb> databases, JobEntries jobs, TimeProvider clock)
{
    public const string FileName = "returned.xjdf";

    private const int MostEvents = 5000;

    /// <summary>The document of a job, whether it is done or not; null where there is no such job.</summary>
    public async Task<XDocument?> OfAsync(string queueEntryId, CancellationToken cancel = default) =>
        (await jobs.ListAsync(new JobAsk([queueEntryId]), cancel)).FirstOrDefault() is { } job ? await WriteAsync(job, cancel) : null;

    public async Task<XDocument> WriteAsync(JobEntry job, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var id = job.Document.OrderId ?? 0;
        var events = await db.TicketEvents.AsNoTracking().Where(e => e.TicketId == id).OrderBy(e => e.Id).Take(MostEvents).ToListAsync(cancel);
        var remakes = await db.Remakes.AsNoTracking().Where(r => r.TicketId == id).OrderBy(r => r.Id)
            .Select(r => new { r.AtUtc, r.Defect, Colour = r.Plate!.Separation!.Colour }).ToListAsync(cancel);
        var now = clock.GetUtcNow().UtcDateTime;
        var audits = new List<(DateTime AtUtc, XElement Audit)>();
        var started = new Dictionary<(int?, Process.Station?), DateTime>();
        foreach (var happened in events)
        {
            if (happened.Kind == TicketEventKind.StageStarted)
            {
                started[(happened.SheetId, happened.Station)] = happened.AtUtc;
            }
            else if (happened is { Kind: TicketEventKind.StageDone, Why: "" })
            {
                audits.Add((happened.AtUtc, Status(job, happened, started.GetValueOrDefault((happened.SheetId, happened.Station)))));
            }
            else if (happened.Kind is TicketEventKind.Held or TicketEventKind.GoingOn or TicketEventKind.Cancelled)
            {
                audits.Add((happened.AtUtc, Audit("Notification", happened.AtUtc, Note(happened))));
            }
        }

        audits.AddRange(remakes.Select(r => (r.AtUtc, Wasted(r.AtUtc, r.Colour, r.Defect))));
        if (job.Ticket is { State: TicketState.Done or TicketState.Cancelled } ticket)
        {
            var ended = ticket.DoneUtc ?? events.FindLast(e => e.Kind == TicketEventKind.Cancelled)?.AtUtc ?? now;
            audits.AddRange(job.Plates.GroupBy(p => p.Colour).Select(g => (ended, Made(ended, g.Key, g.Count(p => p.SheetState == SheetState.Done)))));
            audits.Add((ended, Audit("ProcessRun", ended, new XElement(
                Ns + "ProcessRun",
                new XAttribute("End", Time(ended)),
                new XAttribute("EndStatus", ticket.State == TicketState.Done ? "Completed" : "Aborted"),
                new XAttribute("QueueEntryID", job.Document.QueueEntryId),
                new XAttribute("Start", Time(job.StartedUtc ?? ended)),
                new XAttribute("SubmissionTime", Time(job.FirstUtc))))));
        }

        return new XDocument(
            new XDeclaration("1.0", "UTF-8", null),
            new XElement(
                Ns + "XJDF",
                new XAttribute("JobID", Token(job.Document.JobId)),
                job.Document.JobPartId.Length == 0 ? null : new XAttribute("JobPartID", Token(job.Document.JobPartId)),
                new XAttribute("Types", "ImageSetting"),
                new XAttribute("Version", Xjdf.XjdfNames.Version),
                new XElement(
                    Ns + "AuditPool",
                    new XElement(Ns + "AuditCreated", Header(now, null, null, agent: true)),
                    audits.OrderBy(a => a.AtUtc).Select(a => a.Audit))));
    }

    /// <summary>The message that gives a job back, in one package with its document (XJDF 2.2, 7 and 9.7).</summary>
    public async Task<byte[]> PackageAsync(JobEntry job, string messageId, CancellationToken cancel = default)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        var message = Message(now, new XElement(
            Ns + "CommandReturnQueueEntry",
            Header(now, messageId, null),
            new XElement(Ns + "ReturnQueueEntryParams", new XAttribute("QueueEntryID", job.Document.QueueEntryId), new XAttribute("URL", FileName))));
        using var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            await AddAsync(zip, Xjdf.XjdfNames.RootMessage, Bytes(message), cancel);
            await AddAsync(zip, FileName, Bytes(await WriteAsync(job, cancel)), cancel);
        }

        return bytes.ToArray();
    }

    private static async Task AddAsync(ZipArchive zip, string name, byte[] content, CancellationToken cancel)
    {
        await using var entry = await zip.CreateEntry(name).OpenAsync(cancel);
        await entry.WriteAsync(content, cancel);
    }

    private static XElement Audit(string kind, DateTime atUtc, XElement content) => new(Ns + $"Audit{kind}", Header(atUtc, null, null), content);

    private static XElement Status(JobEntry job, TicketEvent done, DateTime startedUtc) => Audit("Status", done.AtUtc, new XElement(
        Ns + "DeviceInfo",
        new XAttribute("Status", "Production"),
        new XElement(
            Ns + "JobPhase",
            new XAttribute("EndTime", Time(done.AtUtc)),
            new XAttribute("JobID", Token(job.Document.JobId)),
            new XAttribute("QueueEntryID", job.Document.QueueEntryId),
            startedUtc == default ? null : new XAttribute("StartTime", Time(startedUtc)),
            new XAttribute("Status", "InProgress"),
            new XAttribute("StatusDetails", $"{done.Station}"),
            Activity($"{done.Station}", startedUtc == default ? null : startedUtc, done.AtUtc, done.By),
            job.Plates.Where(p => p.SheetId == done.SheetId).Select(p => p.Colour).Distinct().Select(Part))));

    private static XElement Note(TicketEvent happened) => Notification("Event", [
        happened.Kind switch
        {
            TicketEventKind.Held => $"Put on hold: {happened.Why}",
            TicketEventKind.GoingOn => "Goes on.",
            _ => $"Cancelled: {happened.Why}",
        },
    ]);

    private static XElement Wasted(DateTime atUtc, string colour, PlateDefect defect) => Plates(
        atUtc, colour, new XElement(Ns + "MISDetails", new XAttribute("WorkType", "Rework"), new XAttribute("WorkTypeDetails", $"{defect}")),
        [new XAttribute("Amount", 0), new XAttribute("Waste", 1)], new XElement(Ns + "PartWaste", new XAttribute("Waste", 1), new XAttribute("WasteDetails", $"{defect}")));

    private static XElement Made(DateTime atUtc, string colour, int amount) => Plates(
        atUtc, colour, new XElement(Ns + "MISDetails", new XAttribute("WorkType", "Original")), [new XAttribute("Amount", amount), new XAttribute("Waste", 0)], null);

    private static XElement Plates(DateTime atUtc, string colour, XElement details, XAttribute[] amounts, XElement? waste) => Audit("Resource", atUtc, new XElement(
        Ns + "ResourceInfo",
        details,
        new XElement(
            Ns + "ResourceSet",
            new XAttribute("Name", "ExposedMedia"),
            new XAttribute("Usage", "Output"),
            new XElement(
                Ns + "Resource",
                new XElement(Ns + "AmountPool", new XElement(Ns + "PartAmount", amounts, Part(colour), waste)),
                Part(colour)))));
}

using System.Globalization;
using System.Text;
using System.Xml;
using System.Xml.Linq;
using PlateTickets.Tickets.Exchange.Xjdf;
using static PlateTickets.Tickets.Exchange.Xjdf.XjdfNames;

namespace PlateTickets.Tickets.Exchange.Messages;

/// <summary>Writes XJMF and the parts that messages share. Elements stand in the order of the schema, which is alphabetical after the header (XJDF 2.2, 1.3.5.1).</summary>
public static class XjmfText
{
    /// <summary>What the plate room calls itself in messages.</summary>
    public const string DeviceId = "PLATE-ROOM";

    private const string Agent = "PlateTickets";

    /// <summary>A whole message document.</summary>
    public static XDocument Message(DateTime nowUtc, params IEnumerable<XElement> messages) => new(
        new XDeclaration("1.0", "UTF-8", null),
        new XElement(Ns + "XJMF", new XAttribute("Version", XjdfNames.Version), Header(nowUtc, null, null, agent: true), messages));

    public static byte[] Bytes(XDocument document)
    {
        using var bytes = new MemoryStream();
        using (var writer = XmlWriter.Create(bytes, new XmlWriterSettings { Encoding = new UTF8Encoding(false), Indent = true }))
        {
            document.Save(writer);
        }

        return bytes.ToArray();
    }

    /// <param name="nowUtc">When it is written.</param>
    /// <param name="id">Of the message; null for none.</param>
    /// <param name="refId">The message that it answers or follows.</param>
    /// <param name="agent">Name the program too.</param>
    public static XElement Header(DateTime nowUtc, string? id, string? refId, bool agent = false) => new(
        Ns + "Header",
        agent ? new XAttribute("AgentName", Agent) : null,
        new XAttribute("DeviceID", DeviceId),
        id is null ? null : new XAttribute("ID", id),
        string.IsNullOrEmpty(refId) ? null : new XAttribute("refID", Token(refId)),
        new XAttribute("Time", Time(nowUtc)));

    /// <summary>A response with its code and, where there is something to say, a notification.</summary>
    public static XElement Response(string type, DateTime nowUtc, string? refId, int code, string severity, IReadOnlyList<string> comments, params object?[] content) => new(
        Ns + $"Response{type}",
        new XAttribute("ReturnCode", code),
        Header(nowUtc, $"R{Guid.NewGuid():N}", refId),
        comments.Count == 0 ? null : Notification(severity, comments),
        content);

    /// <summary>A signal to a subscriber.</summary>
    /// <param name="type">Status or QueueStatus.</param>
    /// <param name="atUtc">When it happened.</param>
    /// <param name="id">Of the message: the same when it is sent again.</param>
    /// <param name="queryId">The query that subscribed.</param>
    /// <param name="reliable">It is sent until it arrives.</param>
    /// <param name="content">DeviceInfo or Queue.</param>
    public static XElement Signal(string type, DateTime atUtc, string id, string queryId, bool reliable, XElement content) => new(
        Ns + $"Signal{type}", new XAttribute("ChannelMode", reliable ? "Reliable" : "FireAndForget"), Header(atUtc, id, queryId), content);

    public static XElement Notification(string severity, IReadOnlyList<string> comments) =>
        new(Ns + "Notification", new XAttribute("Class", severity), comments.Select(c => new XElement(Ns + "Comment", Plain(c))));

    public static XElement QueueEntry(JobEntry job) => new(
        Ns + "QueueEntry",
        new XAttribute("Activation", job.Activation),
        job.Ticket?.DoneUtc is { } done ? new XAttribute("EndTime", Time(done)) : null,
        new XAttribute("JobID", Token(job.Document.JobId)),
        job.Document.JobPartId.Length == 0 ? null : new XAttribute("JobPartID", Token(job.Document.JobPartId)),
        new XAttribute("Priority", job.Document.Priority),
        new XAttribute("QueueEntryID", job.Document.QueueEntryId),
        job.StartedUtc is { } started ? new XAttribute("StartTime", Time(started)) : null,
        new XAttribute("Status", job.Status),
        job.Details.Length == 0 ? null : new XAttribute("StatusDetails", job.Details),
        new XAttribute("SubmissionTime", Time(job.FirstUtc)));

    /// <summary>The room as one device, with these jobs.</summary>
    public static XElement DeviceInfo(IReadOnlyList<XElement> phases, bool produces) =>
        new(Ns + "DeviceInfo", new XAttribute("Status", produces ? "Production" : "Idle"), phases);

    /// <param name="job">The job.</param>
    /// <param name="activities">What is done at stations; the running ones when null.</param>
    public static XElement JobPhase(JobEntry job, IEnumerable<XElement>? activities = null) => new(
        Ns + "JobPhase",
        new XAttribute("Amount", job.Made),
        new XAttribute("DeadLine", job.DeadLine),
        new XAttribute("JobID", Token(job.Document.JobId)),
        job.Document.JobPartId.Length == 0 ? null : new XAttribute("JobPartID", Token(job.Document.JobPartId)),
        new XAttribute("PercentCompleted", job.Percent),
        new XAttribute("QueueEntryID", job.Document.QueueEntryId),
        job.StartedUtc is { } started ? new XAttribute("StartTime", Time(started)) : null,
        new XAttribute("Status", job.Status),
        job.Details.Length == 0 ? null : new XAttribute("StatusDetails", job.Details),
        new XAttribute("Waste", job.Remakes),
        activities ?? job.Passes.Where(p => p.State == Sheets.StageState.Running).Select(p => Activity($"{p.Station}", p.StartedUtc, null, p.StartedBy)),
        new XElement(Ns + "MISDetails", new XAttribute("WorkType", job.Remakes > 0 && job.Ticket?.State != Orders.TicketState.Done ? "Rework" : "Original")),
        job.Plates.Select(p => p.Colour).Distinct().Select(Part));

    public static XElement Activity(string id, DateTime? fromUtc, DateTime? toUtc, string person) => new(
        Ns + "Activity",
        new XAttribute("ActivityID", id),
        toUtc is { } to ? new XAttribute("EndTime", Time(to)) : null,
        person.Length == 0 ? null : new XAttribute("PersonalID", Token(person)),
        fromUtc is { } from ? new XAttribute("StartTime", Time(from)) : null);

    public static XElement Part(string colour) => new(Ns + "Part", new XAttribute("Separation", Token(colour)));

    /// <summary>An xs:dateTime in UTC.</summary>
    public static string Time(DateTime utc) => DateTime.SpecifyKind(utc, DateTimeKind.Utc).ToString("yyyy-MM-ddTHH:mm:ss'Z'", CultureInfo.InvariantCulture);

    /// <summary>A text as NMTOKEN: what it may not hold becomes an underscore.</summary>
    public static string Token(string text) => text.Length == 0 ? "_" : string.Concat(text.Select(c => XmlConvert.IsNCNameChar(c) || c == ':' ? c : '_'));

    // A control character of a stranger's text must not make our answer unreadable.
    private static string Plain(string text) => string.Concat(text.Select(c => XmlConvert.IsXmlChar(c) ? c : '�'));
}

using System.Globalization;
using System.Xml.Linq;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Tickets.Exchange.Xjdf;
using PlateTickets.Tickets.Stations;
using static PlateTickets.Tickets.Exchange.Messages.XjmfText;
using static PlateTickets.Tickets.Exchange.Xjdf.XjdfNames;

namespace PlateTickets.Tickets.Exchange.Messages;

/// <summary>Who sends a message.</summary>
/// <param name="Sender">The key's name, or the folder's.</param>
/// <param name="Door">Through which door.</param>
/// <param name="FileName">What it came in.</param>
/// <param name="MayEnter">May submit and change jobs of its own.</param>
/// <param name="MayChangePlan">May hold, resume and abort jobs of others too.</param>
/// <param name="Address">Under which the caller reached this program; empty when it did not come over the network.</param>
public sealed record XjmfCaller(string Sender, DocumentDoor Door, string FileName, bool MayEnter, bool MayChangePlan, string Address = "");

/// <summary>Says which addresses this program may send to.</summary>
public interface IOutgoingAddresses
{
    /// <summary>Why nothing may be sent there, in a sentence; null when it may.</summary>
    string? Refusal(string url);
}

/// <summary>Answers XJMF messages (XJDF 2.2, 7 and 9): each in its turn, each with a return code.</summary>
public sealed class XjmfDesk(
    IDbContextFactory<PlateRoomDb> databases, DocumentIntake intake, JobEntries jobs, QueueChanges changes, RoomCatalog rooms, IOutgoingAddresses addresses, TimeProvider clock)
{
    private const int MostMessages = 50;
    private const int MostChannels = 50;

    /// <summary>What is understood, as KnownMessages lists it.</summary>
    public static IReadOnlyList<string> Known { get; } =
    [
        "CommandModifyQueueEntry", "CommandResubmitQueueEntry", "CommandStopPersistentChannel", "CommandSubmitQueueEntry",
        "QueryKnownDevices", "QueryKnownMessages", "QueryKnownSubscriptions", "QueryQueueStatus", "QueryStatus",
    ];

    private DateTime Now => clock.GetUtcNow().UtcDateTime;

    /// <summary>Answers every message of a document; never throws for what a sender did wrong.</summary>
    /// <param name="xjmf">The message document.</param>
    /// <param name="package">What it came in, with the documents that it points to; null when it came alone.</param>
    /// <param name="caller">Who sends it.</param>
    /// <param name="only">The only message that this address takes; null for all.</param>
    /// <param name="cancel">Cancels.</param>
    public async Task<XDocument> AnswerAsync(byte[] xjmf, DocumentPackage? package, XjmfCaller caller, string? only = null, CancellationToken cancel = default)
    {
        try
        {
            var root = SafeXml.Read(xjmf).Root!;
            if (root.Name != Ns + "XJMF")
            {
                throw new DocumentRefusedException(ReturnCodes.Validation, $"The root element is {root.Name.LocalName}; a message has the root XJMF of the namespace {Ns}.");
            }

            var messages = root.Elements().Where(e => e.Name != Ns + "Header").ToList();
            return messages.Count switch
            {
                0 => throw new DocumentRefusedException(ReturnCodes.Validation, "The XJMF holds no message."),
                > MostMessages => throw new DocumentRefusedException(ReturnCodes.Validation, $"The XJMF holds {messages.Count} messages; {MostMessages} are taken at once."),
                _ => Message(Now, await OneByOneAsync(messages, xjmf, package, caller, only, cancel)),
            };
        }
        catch (DocumentRefusedException refused)
        {
            return Refused(refused);
        }
    }

    /// <summary>Answers a document that came without a message as if it was submitted.</summary>
    public async Task<XDocument> SubmitAsync(byte[] xjdf, DocumentPackage? package, XjmfCaller caller, CancellationToken cancel = default)
    {
        try
        {
            return Message(Now, await SubmittedAsync("SubmitQueueEntry", null, new DocumentArrival(caller.Door, caller.Sender, caller.FileName, xjdf), package, caller, [], cancel));
        }
        catch (DocumentRefusedException refused)
        {
            return Message(Now, Response("SubmitQueueEntry", Now, null, refused.ReturnCode, "Error", [refused.Message]));
        }
    }

    /// <summary>The answer to what could not be read as a message (XJDF 2.2, 9.6.1).</summary>
    public XDocument Refused(DocumentRefusedException refused) => Message(Now, Response("Notification", Now, null, refused.ReturnCode, "Error", [refused.Message]));

    private async Task<List<XElement>> OneByOneAsync(List<XElement> messages, byte[] xjmf, DocumentPackage? package, XjmfCaller caller, string? only, CancellationToken cancel)
    {
        var answers = new List<XElement>();
        foreach (var message in messages)
        {
            var refId = message.Element(Ns + "Header")?.Attribute("ID")?.Value;
            var name = message.Name.LocalName;
            var type = name.StartsWith("Command", StringComparison.Ordinal) ? name[7..] : name.StartsWith("Query", StringComparison.Ordinal) ? name[5..] : "Notification";
            try
            {
                answers.Add(
                    message.Name.Namespace != Ns || !Known.Contains(name) ? throw new DocumentRefusedException(ReturnCodes.NotImplemented, $"{name.Cut(100)} is not understood here. Ask QueryKnownMessages what is.")
                    : only is not null && name != only ? throw new DocumentRefusedException(ReturnCodes.Validation, $"This address takes {only}; {name} came.")
                    : await OneAsync(message, name, type, refId, xjmf, package, caller, cancel));
            }
            catch (DocumentRefusedException refused)
            {
                answers.Add(Response(Known.Contains(name) ? type : "Notification", Now, refId, refused.ReturnCode, "Error", [refused.Message]));
            }
            catch (PlateRoomException refused)
            {
                answers.Add(Response(type, Now, refId, ReturnCodes.General, "Error", [refused.Message]));
            }
        }

        return answers;
    }

    private async Task<XElement> OneAsync(XElement message, string name, string type, string? refId, byte[] xjmf, DocumentPackage? package, XjmfCaller caller, CancellationToken cancel)
    {
        switch (name)
        {
            case "CommandSubmitQueueEntry":
                return await SubmitAsync(message, refId, xjmf, package, caller, cancel);
            case "CommandResubmitQueueEntry":
                return await ResubmitAsync(message, refId, xjmf, package, caller, cancel);
            case "CommandModifyQueueEntry":
                return await ModifyAsync(message, refId, caller, cancel);
            case "CommandStopPersistentChannel":
                return await StopAsync(message, refId, caller, cancel);
            case "QueryKnownMessages":
                return Response(type, Now, refId, 0, "", [], Known.Select(k => new XElement(
                    Ns + "MessageService",
                    new XAttribute("ResponseModes", k is "QueryStatus" or "QueryQueueStatus" ? "FireAndForget Reliable Response" : "Response"),
                    new XAttribute("Type", k),
                    new XAttribute("URLSchemes", "http https"))));
            case "QueryKnownDevices":
                return Response(type, Now, refId, 0, "", [], await DeviceAsync(caller, cancel));
            case "QueryKnownSubscriptions":
                return Response(type, Now, refId, 0, "", [], (await ChannelsAsync(message.Element(Ns + "SubscriptionFilter")?.Attribute("URL")?.Value, caller, cancel)).Select(Info));
            default:
                return message.Element(Ns + "Subscription") is { } subscription
                    ? await SubscribeAsync(subscription, type, refId, message, caller, cancel)
                    : Response(type, Now, refId, 0, "", [], type == "Status" ? await StatusAsync(message, cancel) : await QueueAsync(message, cancel));
        }
    }

    private async Task<XElement> SubmitAsync(XElement message, string? refId, byte[] xjmf, DocumentPackage? package, XjmfCaller caller, CancellationToken cancel)
    {
        var wish = message.Element(Ns + "QueueSubmissionParams") ?? throw new DocumentRefusedException(ReturnCodes.Validation, "QueueSubmissionParams is missing.");
        var notes = new List<string>();
        var arrival = new DocumentArrival(caller.Door, caller.Sender, caller.FileName, await DocumentAsync(wish, package, cancel))
        {
            Xjmf = xjmf,
            ReturnUrl = ReturnUrl(wish, notes),
            Priority = Whole(wish, "Priority"),
            StartsHeld = wish.Attribute("Activation")?.Value == "Held",
        };
        if (wish.Attribute("Activation")?.Value is { } activation and not ("Held" or "Active"))
        {
            throw new DocumentRefusedException(ReturnCodes.NotImplemented, $"Activation “{activation.Cut(100)}” is not understood here: send Active or Held.");
        }

        return await SubmittedAsync("SubmitQueueEntry", refId, arrival, package, caller, notes, cancel);
    }

    private async Task<XElement> ResubmitAsync(XElement message, string? refId, byte[] xjmf, DocumentPackage? package, XjmfCaller caller, CancellationToken cancel)
    {
        var wish = message.Element(Ns + "ResubmissionParams") ?? throw new DocumentRefusedException(ReturnCodes.Validation, "ResubmissionParams is missing.");
        var method = wish.Attribute("UpdateMethod")?.Value switch
        {
            "Complete" => UpdateMethod.Complete,
            "Incremental" => UpdateMethod.Incremental,
            "Remove" => UpdateMethod.Remove,
            var other => throw new DocumentRefusedException(ReturnCodes.Validation, $"ResubmissionParams/@UpdateMethod is “{(other ?? "").Cut(100)}”: send Complete, Incremental or Remove."),
        };
        var arrival = new DocumentArrival(caller.Door, caller.Sender, caller.FileName, await DocumentAsync(wish, package, cancel))
        {
            Xjmf = xjmf,
            QueueEntryId = wish.Attribute("QueueEntryID")?.Value ?? throw new DocumentRefusedException(ReturnCodes.Validation, "ResubmissionParams/@QueueEntryID is missing."),
            Update = method,
        };
        return await SubmittedAsync("ResubmitQueueEntry", refId, arrival, package, caller, [], cancel);
    }

    private async Task<XElement> SubmittedAsync(
        string type, string? refId, DocumentArrival arrival, DocumentPackage? package, XjmfCaller caller, List<string> notes, CancellationToken cancel)
    {
        if (!caller.MayEnter)
        {
            throw new DocumentRefusedException(ReturnCodes.General, "This key may not enter orders. Ask the administrator of the plate room for one that may.");
        }

        var outcome = await intake.TakeAsync(arrival, package, cancel);
        var asked = outcome.Document.State == DocumentState.Held;
        List<string> said =
        [
            .. asked ? outcome.Questions.Count > 0 ? outcome.Questions.Select(q => $"A person is asked: {q.Sentence}") : [$"A person is asked: {outcome.Document.Sentence}"] : Array.Empty<string>(),
            .. outcome.Repeated ? ["The same document came before: nothing was done again."] : Array.Empty<string>(),
            .. notes,
            .. outcome.Notes,
        ];
        var job = (await jobs.ListAsync(new JobAsk([outcome.Document.QueueEntryId]), cancel))[0];
        return Response(type, Now, refId, ReturnCodes.Success, asked || outcome.Notes.Count + notes.Count > 0 ? "Warning" : "Information", said, type == "SubmitQueueEntry" ? QueueEntry(job) : null);
    }

    // Nothing is fetched: what a message points to came with it, or is not here.
    private static async Task<byte[]> DocumentAsync(XElement wish, DocumentPackage? package, CancellationToken cancel)
    {
        var url = wish.Attribute("URL")?.Value ?? "";
        return package is null ? throw new DocumentRefusedException(ReturnCodes.General, $"The document at “{url.Cut(100)}” did not come with the message, and nothing is fetched from elsewhere. Send both in one zip package, or the XJDF alone.")
            : package.Find(url) is { } entry ? await package.ReadAsync(entry, cancel)
            : throw new DocumentRefusedException(ReturnCodes.General, $"The package holds no “{url.Cut(100)}”, to which its message points.");
    }

    private string ReturnUrl(XElement wish, List<string> notes)
    {
        var url = wish.Attribute("ReturnJMF")?.Value ?? "";
        if (url.Length == 0)
        {
            return "";
        }

        if (addresses.Refusal(url) is { } refusal)
        {
            notes.Add($"The job will not be returned to {url.Cut(100)}: {refusal}");
            return "";
        }

        return url;
    }

    private async Task<XElement> ModifyAsync(XElement message, string? refId, XjmfCaller caller, CancellationToken cancel)
    {
        var wish = message.Element(Ns + "ModifyQueueEntryParams") ?? throw new DocumentRefusedException(ReturnCodes.Validation, "ModifyQueueEntryParams is missing.");
        var filter = wish.Element(Ns + "QueueFilter");
        var ask = Ask(filter);
        if (ask.QueueEntryIds is not { Count: > 0 } && ask.JobId.Length == 0)
        {
            throw new DocumentRefusedException(ReturnCodes.Validation, "QueueFilter names no job: give @QueueEntryIDs or @JobID.");
        }

        var found = await jobs.ListAsync(ask, cancel);
        if (found.Count == 0)
        {
            throw new DocumentRefusedException(ReturnCodes.UnknownQueueEntry, "There is no such queue entry.");
        }

        var operation = wish.Attribute("Operation")?.Value ?? "";
        var (code, said) = (ReturnCodes.Success, new List<string>());
        foreach (var job in found)
        {
            if (job.Document.Sender != caller.Sender && !caller.MayChangePlan)
            {
                throw new DocumentRefusedException(ReturnCodes.General, $"Queue entry {job.Document.QueueEntryId} is another sender's.");
            }

            var (one, sentence) = await changes.MakeAsync(job, operation, Whole(wish, "Priority"), caller.Sender, cancel);
            code = code == ReturnCodes.Success ? one : code;
            said.Add($"{job.Document.QueueEntryId}: {sentence}");
        }

        var after = await jobs.ListAsync(new JobAsk([.. found.Select(j => j.Document.QueueEntryId)]), cancel);
        return Response("ModifyQueueEntry", Now, refId, code, code == ReturnCodes.Success ? "Information" : "Error", said, after.Select(QueueEntry));
    }

    private async Task<XElement> StatusAsync(XElement message, CancellationToken cancel)
    {
        var wish = message.Element(Ns + "StatusQuParams");
        var entry = wish?.Attribute("QueueEntryID")?.Value;
        var found = await jobs.ListAsync(new JobAsk(entry is null ? null : [entry], wish?.Attribute("JobID")?.Value ?? ""), cancel);
        return DeviceInfo([.. found.Select(j => JobPhase(j))], found.Any(j => j.Running is not null));
    }

    private async Task<XElement> QueueAsync(XElement message, CancellationToken cancel)
    {
        var found = await jobs.ListAsync(Ask(message.Element(Ns + "QueueStatusParams")?.Element(Ns + "QueueFilter")), cancel);
        return new XElement(Ns + "Queue", new XAttribute("QueueSize", found.Count), found.Select(QueueEntry));
    }

    private static JobAsk Ask(XElement? filter) => new(
        filter?.Attribute("QueueEntryIDs")?.Value.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries),
        filter?.Attribute("JobID")?.Value ?? "",
        filter is null ? JobEntries.MostListed : Whole(filter, "MaxEntries") ?? JobEntries.MostListed);

    private async Task<XElement> DeviceAsync(XjmfCaller caller, CancellationToken cancel) => new(
        Ns + "Device",
        new XAttribute("DescriptiveName", (await rooms.GetAsync(cancel)).Site.Name),
        new XAttribute("DeviceClass", "PlateSetter"),
        new XAttribute("DeviceID", DeviceId),
        new XAttribute("JDFVersions", "2.0 2.1 2.2"),
        caller.Address.Length == 0 ? null : new XAttribute("RestApiBaseURL", caller.Address),
        new XAttribute("URLSchemes", "http https"),
        caller.Address.Length == 0 ? null : new XAttribute("XJMFURL", caller.Address));

    private async Task<XElement> SubscribeAsync(XElement subscription, string type, string? refId, XElement message, XjmfCaller caller, CancellationToken cancel)
    {
        var url = subscription.Attribute("URL")?.Value ?? "";
        if (string.IsNullOrEmpty(refId))
        {
            throw new DocumentRefusedException(ReturnCodes.Validation, "A query with a subscription needs Header/@ID: signals refer to it.");
        }

        if (addresses.Refusal(url) is { } refusal)
        {
            throw new DocumentRefusedException(ReturnCodes.SubscriptionDenied, $"No signals can be sent to {url.Cut(100)}: {refusal}");
        }

        var modes = (subscription.Attribute("ChannelMode")?.Value ?? "FireAndForget").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        if (modes.FirstOrDefault(m => m is "Reliable" or "FireAndForget") is not { } mode)
        {
            throw new DocumentRefusedException(ReturnCodes.SubscriptionDenied, "Subscription/@ChannelMode must be Reliable or FireAndForget.");
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = caller.Sender;
        if (!await db.ApiKeys.AnyAsync(k => k.Name == caller.Sender && k.RevokedUtc == null, cancel))
        {
            throw new DocumentRefusedException(ReturnCodes.SubscriptionDenied, "Signals go to programs with an API key: they end with it.");
        }

        var there = await db.SignalChannels.Where(c => c.Sender == caller.Sender && c.EndedUtc == null).ToListAsync(cancel);
        // A subscription of the same type to the same address takes the place of the earlier one (XJDF 2.2, 9.6.3).
        foreach (var same in there.Where(c => c.MessageType == type && c.Url == url))
        {
            same.EndedUtc = Now;
        }

        if (there.Count(c => c.EndedUtc is null) >= MostChannels)
        {
            throw new DocumentRefusedException(ReturnCodes.SubscriptionDenied, $"This sender has {MostChannels} subscriptions: stop one that is not used any more.");
        }

        db.SignalChannels.Add(new SignalChannel
        {
            Sender = caller.Sender,
            MessageType = type,
            Url = url,
            QueryId = refId,
            Reliable = mode == "Reliable",
            JobId = message.Element(Ns + "StatusQuParams")?.Attribute("JobID")?.Value ?? "",
            MadeUtc = Now,
        });
        await db.SaveChangesAsync(cancel);
        return Response(type, Now, refId, 0, "Warning", subscription.Attribute("RepeatTime") is null ? [] : ["RepeatTime is not kept: a signal comes whenever something changes."]);
    }

    private async Task<XElement> StopAsync(XElement message, string? refId, XjmfCaller caller, CancellationToken cancel)
    {
        var wish = message.Element(Ns + "StopPersChParams") ?? throw new DocumentRefusedException(ReturnCodes.Validation, "StopPersChParams is missing.");
        var (id, type, url) = (wish.Attribute("ChannelID")?.Value, wish.Attribute("MessageType")?.Value, wish.Attribute("URL")?.Value);
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = caller.Sender;
        var stopped = (await db.SignalChannels.Where(c => c.Sender == caller.Sender && c.EndedUtc == null).ToListAsync(cancel))
            .Where(c => (id is null || c.ChannelId == id) && (type is null || c.MessageType == type) && (url is null || c.Url == url)).ToList();
        foreach (var channel in stopped)
        {
            channel.EndedUtc = Now;
        }

        await db.SaveChangesAsync(cancel);
        return Response("StopPersistentChannel", Now, refId, 0, "", [], stopped.Select(Info));
    }

    private async Task<List<SignalChannel>> ChannelsAsync(string? url, XjmfCaller caller, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.SignalChannels.AsNoTracking().Where(c => c.Sender == caller.Sender && c.EndedUtc == null && (url == null || c.Url == url)).OrderBy(c => c.Id).Take(MostChannels).ToListAsync(cancel);
    }

    private static XElement Info(SignalChannel channel) => new(
        Ns + "SubscriptionInfo",
        new XAttribute("ChannelID", channel.ChannelId),
        new XAttribute("MessageType", channel.MessageType),
        new XElement(Ns + "Subscription", new XAttribute("ChannelMode", channel.Reliable ? "Reliable" : "FireAndForget"), new XAttribute("URL", channel.Url)));

    private static int? Whole(XElement element, string attribute) =>
        int.TryParse(element.Attribute(attribute)?.Value, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) ? Math.Clamp(number, 0, 1000) : null;

}

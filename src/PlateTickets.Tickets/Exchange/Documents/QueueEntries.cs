using System.Globalization;

namespace PlateTickets.Tickets.Exchange.Documents;

/// <summary>How jobs of other programs are named in messages: QueueEntry/@QueueEntryID is Q and the id of the job's first document.</summary>
public static class QueueEntries
{
    /// <summary>The id behind a name; 0 for a name that was never given out.</summary>
    public static int IdOf(string entry) =>
        entry.StartsWith('Q') && int.TryParse(entry.AsSpan(1), NumberStyles.None, CultureInfo.InvariantCulture, out var id) ? id : 0;
}

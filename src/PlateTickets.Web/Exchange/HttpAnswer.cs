namespace PlateTickets.Web.Exchange;

/// <summary>What came of a message to another program.</summary>
/// <param name="Status">HTTP status; 0 when there was no answer.</param>
/// <param name="Body">The first 4 KiB of the answer.</param>
/// <param name="Trouble">Why there was no answer, in a sentence; null when there was one.</param>
/// <param name="RetryAfter">The header of this name.</param>
public sealed record HttpAnswer(int Status, string Body, string? Trouble, string? RetryAfter)
{
    private const int LongestQuote = 300;

    public bool Arrived => Status is >= 200 and < 300;

    /// <summary>What happened, for people.</summary>
    public string Sentence => Trouble ?? (Status is >= 300 and < 400
        ? $"The receiver answered {Status}: it sends on to another address, which is not followed. Set the address that takes the messages itself."
        : Quote.Length == 0 ? $"The receiver answered {Status}." : $"The receiver answered {Status}: {Quote}");

    private string Quote
    {
        get
        {
            var line = string.Join(' ', Body.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
            line = string.Concat(line.Where(c => !char.IsControl(c)));
            return line.Length <= LongestQuote ? line : line[..LongestQuote] + "…";
        }
    }
}

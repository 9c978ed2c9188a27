namespace PlateTickets.Tickets.Exchange.Xjdf;

/// <summary>A document or message that cannot be taken, in a sentence for its sender.</summary>
/// <param name="returnCode">As XJMF names it.</param>
/// <param name="sentence">What is wrong, where, and what to do.</param>
public sealed class DocumentRefusedException(int returnCode, string sentence) : Exception(sentence)
{
    public int ReturnCode { get; } = returnCode;
}

namespace PlateTickets.Tickets.Sheets;

/// <summary>The next free place in the sequence of a kind of number.</summary>
public sealed class NumberSequence
{
    public NumberKind Kind { get; set; }

    public long Next { get; set; }

    /// <summary>Takes the next number that is not skipped. Save the context in the same transaction.</summary>
    public string Take()
    {
        while (true)
        {
            if (TrackingNumber.FromSequence(Kind, Next++) is { } number)
            {
                return number;
            }
        }
    }
}

namespace PlateTickets.Tickets.Accounts;

/// <summary>
/// A creating call of a program that may come again because its answer got lost: the second one must not create a second time. Kept in the
/// transaction of what it created.
/// </summary>
public sealed class IdempotentCall
{
    public int Id { get; set; }

    public required string Caller { get; set; }

    /// <summary>The caller's Idempotency-Key; 1 to 200 characters.</summary>
    public required string Key { get; set; }

    /// <summary>What was asked, as hex: the same key with another question is a mistake of the caller.</summary>
    public required string Request { get; set; }

    /// <summary>The number of the order that it created or changed; of several, parted by blanks.</summary>
    public required string Number { get; set; }

    public DateTime AtUtc { get; set; }
}

/// <summary>The key of a call that is at work.</summary>
/// <param name="Caller">Who calls.</param>
/// <param name="Key">The caller's key.</param>
/// <param name="Request">What is asked, as hex.</param>
public sealed record CallKey(string Caller, string Key, string Request);

namespace PlateTickets.Tickets.Accounts.Audit;

/// <summary>The head of the trail as somebody noted it outside the database.</summary>
/// <param name="Count">How many entries there were.</param>
/// <param name="Hash">The hash of the last of them, in hexadecimal.</param>
public sealed record AuditFigures(long Count, string Hash);

/// <summary>What came of walking the trail from its first entry to its last.</summary>
/// <param name="Figures">Count and head of the entries that fit.</param>
/// <param name="Wrong">What does not fit, as a sentence; null when everything does.</param>
/// <param name="WrongId">The first entry that does not fit; null when none is to blame.</param>
public sealed record AuditVerdict(AuditFigures Figures, string? Wrong, long? WrongId)
{
    public bool Whole => Wrong is null;
}

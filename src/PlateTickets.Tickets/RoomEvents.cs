namespace PlateTickets.Tickets;

/// <summary>Sheets that changed: by a scan, a new layout or a new plan.</summary>
public sealed record SheetsChanged(IReadOnlyCollection<int> SheetIds);

/// <summary>Tells the other parts of the program what was committed. Handlers must be quick: they queue work, they do not do it.</summary>
public sealed class RoomEvents
{
    public event Action<SheetsChanged>? Changed;

    /// <summary>Raised when the plan should be made anew.</summary>
    public event Action? PlanWanted;

    public void TellChanged(params IReadOnlyCollection<int> sheetIds)
    {
        if (sheetIds.Count > 0)
        {
            Changed?.Invoke(new SheetsChanged(sheetIds));
        }
    }

    public void AskForPlan() => PlanWanted?.Invoke();
}

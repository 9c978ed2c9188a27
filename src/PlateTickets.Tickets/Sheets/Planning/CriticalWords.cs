using PlateTickets.Planning.Scheduling.Lateness;
using PlateTickets.Process;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Sheets.Planning;

/// <summary>Says why a ticket comes late.</summary>
public static class CriticalWords
{
    /// <summary>Such as "waits 1 h 50 min for Line washer behind 3 sheets, 2 of another recipe".</summary>
    /// <param name="critical">The longest wait.</param>
    /// <param name="room">For the machines' names.</param>
    /// <param name="late">False for a ticket that the plan finishes in time, but hardly.</param>
    public static string Say(CriticalStage critical, Room room, bool late = true)
    {
        var machine = room.EquipmentById(critical.EquipmentId)?.Name ?? "a machine";
        var wait = Durations.ForPeople(Math.Round(critical.Wait.TotalMinutes) * 60);
        return critical.Cause switch
        {
            WaitCause.Machine => $"waits {wait} for {machine} behind {Sheets(critical.Ahead)}{Others(critical)}",
            WaitCause.Changeover => $"waits {wait} for {machine} behind {Sheets(critical.Ahead)}{Others(critical)}, and for its changeover",
            WaitCause.Downtime => $"waits {wait} for {machine}, which is down",
            WaitCause.Shift => $"waits {wait} for {machine} until the next shift",
            WaitCause.Operator => $"waits {wait} at {machine} until an operator has time",
            WaitCause.NextStage => $"starts {wait} later at {machine}, because it may not lie before the stage after it",
            WaitCause.Unloading => $"lies {wait} in {machine} until somebody is there to take it out",
            _ => $"is not held up for long: the work itself {(late ? "ends after the due time" : "leaves little time")}, the longest part at {machine}",
        };
    }

    private static string Sheets(int count) => count == 1 ? "1 sheet" : $"{count} sheets";

    private static string Others(CriticalStage critical) =>
        critical.OfOtherRecipes == 0 ? ""
        : critical.OfOtherRecipes == critical.Ahead ? " of another recipe"
        : $", {critical.OfOtherRecipes} of another recipe";
}

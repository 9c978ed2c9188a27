namespace PlateTickets.Planning.Scheduling;

/// <summary>No plan can be made of this request. The message says in the user's words what is wrong, where, and what to do.</summary>
public sealed class PlanException(string message) : Exception(message);

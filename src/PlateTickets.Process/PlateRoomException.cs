namespace PlateTickets.Process;

/// <summary>A refusal: its message is a sentence for the person at the screen.</summary>
public sealed class PlateRoomException(string sentence) : Exception(sentence);

namespace PlateTickets.Tickets.Orders.Separations;

/// <summary>Why a file is no separation.</summary>
public enum SeparationFault
{
    NotTiff = 1,
    NotOneBit,
    NoResolution,
    SeveralImages,
    CutOff,
    Damaged,
    Unsupported,
    TooLarge,
}

/// <summary>A file that cannot become a plate; the message is a sentence for the CSR that names the file and what to do.</summary>
public sealed class SeparationException(SeparationFault fault, string sentence, Exception? inner = null) : Exception(sentence, inner)
{
    public SeparationFault Fault { get; } = fault;
}

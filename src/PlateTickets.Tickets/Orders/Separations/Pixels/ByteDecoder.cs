namespace PlateTickets.Tickets.Orders.Separations.Pixels;

/// <summary>Gives the packed lines of a strip or tile. One object serves one thread and many strips.</summary>
internal abstract class ByteDecoder
{
    /// <summary>Begins the strip that the reader was opened on.</summary>
    public abstract void Begin();

    /// <summary>Fills the span; fewer bytes mean that the strip ends there.</summary>
    /// <exception cref="InvalidDataException">The bytes are no such compression.</exception>
    public abstract int Read(Span<byte> into);
}

/// <summary>Compression 1: the bytes as they are.</summary>
internal sealed class PlainBytes(RawReader raw) : ByteDecoder
{
    public override void Begin()
    {
    }

    public override int Read(Span<byte> into) => raw.Read(into);
}

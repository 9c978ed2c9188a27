using System.Buffers.Binary;

namespace PlateTickets.Tickets.Orders.Separations.Pixels;

/// <summary>The stored bytes of one strip or tile, in order and in pieces; with fill order 2 the bits of each byte are turned round.</summary>
internal sealed class RawReader(RawFile file, bool reversed)
{
    private const int PieceBytes = 128 * 1024;

    private long _at;
    private long _left;

    public byte[] Buffer { get; } = new byte[PieceBytes];

    /// <summary>The first byte of the buffer that is not used up yet.</summary>
    public int Pos { get; set; }

    /// <summary>The end of what the buffer holds.</summary>
    public int End { get; private set; }

    public void Open(long offset, long length)
    {
        (_at, _left) = (offset, length);
        (Pos, End) = (0, 0);
    }

    /// <summary>Brings more bytes behind those that are left. False when the strip has none.</summary>
    public bool More()
    {
        var kept = End - Pos;
        Buffer.AsSpan(Pos, kept).CopyTo(Buffer);
        (Pos, End) = (0, kept);
        var into = Buffer.AsSpan(kept);
        into = into[..(int)Math.Min(into.Length, _left)];
        var got = into.IsEmpty ? 0 : Fetch(into);
        End += got;
        return got > 0;
    }

    /// <summary>Reads past the buffer, for bytes that are taken as they are.</summary>
    public int Read(Span<byte> into)
    {
        var kept = Math.Min(End - Pos, into.Length);
        Buffer.AsSpan(Pos, kept).CopyTo(into);
        Pos += kept;
        into = into[kept..];
        return into.IsEmpty ? kept : kept + Fetch(into[..(int)Math.Min(into.Length, _left)]);
    }

    /// <summary>Turns the bits of each byte round: the lowest becomes the highest.</summary>
    internal static void Reverse(Span<byte> bytes)
    {
        var at = 0;
        for (; at + 8 <= bytes.Length; at += 8)
        {
            var eight = BinaryPrimitives.ReadUInt64LittleEndian(bytes[at..]);
            eight = ((eight >> 1) & 0x5555555555555555) | ((eight & 0x5555555555555555) << 1);
            eight = ((eight >> 2) & 0x3333333333333333) | ((eight & 0x3333333333333333) << 2);
            eight = ((eight >> 4) & 0x0f0f0f0f0f0f0f0f) | ((eight & 0x0f0f0f0f0f0f0f0f) << 4);
            BinaryPrimitives.WriteUInt64LittleEndian(bytes[at..], eight);
        }

        for (; at < bytes.Length; at++)
        {
            var b = (int)bytes[at];
            b = ((b >> 1) & 0x55) | ((b & 0x55) << 1);
            b = ((b >> 2) & 0x33) | ((b & 0x33) << 2);
            bytes[at] = (byte)(((b >> 4) & 0x0f) | ((b & 0x0f) << 4));
        }
    }

    private int Fetch(Span<byte> into)
    {
        var got = file.Read(_at, into);
        _at += got;
        _left = got < into.Length ? 0 : _left - got;
        if (reversed)
        {
            Reverse(into[..got]);
        }

        return got;
    }
}

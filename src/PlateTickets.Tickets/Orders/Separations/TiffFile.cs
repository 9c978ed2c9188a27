using System.Buffers.Binary;
using System.Text;
using PlateTickets.Tickets.Orders.Separations.Pixels;

namespace PlateTickets.Tickets.Orders.Separations;

/// <summary>
/// Reads TIFF 6.0 and BigTIFF structure by small random reads: bounded in memory whatever the file says, and no
/// offset is believed before it was compared with the file's length.
/// </summary>
internal sealed class TiffFile
{
    private const int MostEntries = 4096;
    private const int ChunkBytes = 64 * 1024;
    private const int LongestText = 2000;

    private readonly string _name;
    private readonly byte[] _small = new byte[20];
    private readonly bool _bigEndian;
    private readonly bool _big;

    private TiffFile(Stream stream, string name, bool bigEndian, bool big)
    {
        Raw = new RawFile(stream);
        Length = stream.Length;
        _name = name;
        _bigEndian = bigEndian;
        _big = big;
    }

    public long Length { get; }

    /// <summary>The bytes of the file, for several threads.</summary>
    public RawFile Raw { get; }

    public long FirstDirectory { get; private init; }

    /// <summary>Null when the first bytes are no TIFF header.</summary>
    public static TiffFile? Open(Stream stream, string name)
    {
        Span<byte> head = stackalloc byte[16];
        stream.Position = 0;
        var got = stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
        if (got < 8 || !(head[..2].SequenceEqual("II"u8) || head[..2].SequenceEqual("MM"u8)))
        {
            return null;
        }

        var bigEndian = head[0] == (byte)'M';
        var version = bigEndian ? BinaryPrimitives.ReadUInt16BigEndian(head[2..]) : BinaryPrimitives.ReadUInt16LittleEndian(head[2..]);
        return version switch
        {
            42 => new TiffFile(stream, name, bigEndian, big: false)
            {
                FirstDirectory = bigEndian ? BinaryPrimitives.ReadUInt32BigEndian(head[4..]) : BinaryPrimitives.ReadUInt32LittleEndian(head[4..]),
            },
            43 when got == 16 => new TiffFile(stream, name, bigEndian, big: true)
            {
                FirstDirectory = (long)Math.Min(
                    long.MaxValue, bigEndian ? BinaryPrimitives.ReadUInt64BigEndian(head[8..]) : BinaryPrimitives.ReadUInt64LittleEndian(head[8..])),
            },
            _ => null,
        };
    }

    /// <summary>Reads the directory at an offset and says where the next one is (0: none).</summary>
    public TiffDirectory Directory(long offset, out long next)
    {
        var (countBytes, entryBytes, nextBytes) = _big ? (8, 20, 8) : (2, 12, 4);
        var count = Unsigned(offset, countBytes);
        if (count is 0 or > MostEntries)
        {
            throw Damaged($"its directory claims {count} entries");
        }

        var entries = new Dictionary<int, TiffEntry>((int)count);
        for (var i = 0; i < count; i++)
        {
            var at = offset + countBytes + (i * entryBytes);
            var tag = (int)Unsigned(at, 2);
            var type = (int)Unsigned(at + 2, 2);
            var values = Unsigned(at + 4, _big ? 8 : 4);
            var size = SizeOf(type);
            if (size == 0 || values == 0)
            {
                continue;
            }

            var inline = at + (_big ? 12 : 8);
            var fits = values <= (_big ? 8 : 4) / size;
            entries.TryAdd(tag, new TiffEntry(type, values, fits ? inline : Unsigned(inline, _big ? 8 : 4)));
        }

        next = Unsigned(offset + countBytes + (count * entryBytes), nextBytes);
        return new TiffDirectory(this, entries);
    }

    public long Number(TiffEntry entry, long index)
    {
        var size = SizeOf(entry.Type);
        return entry.Type is 3 or 4 or 1 or 13 or 16 or 18 ? Unsigned(entry.ValueOffset + (index * size), size) : throw Damaged("a whole number is stored as something else");
    }

    public IEnumerable<long> Numbers(TiffEntry entry)
    {
        var size = SizeOf(entry.Type);
        if (entry.Type is not (3 or 4 or 16 or 13 or 18))
        {
            throw Damaged("a table of offsets is stored as something else");
        }

        if (entry.ValueOffset < 0 || entry.Count > (Length - entry.ValueOffset) / size)
        {
            throw new SeparationException(SeparationFault.CutOff, $"{_name} is cut off: its table of strips lies beyond the end of the file. Send it again.");
        }

        var buffer = new byte[(int)Math.Min(ChunkBytes, entry.Count * size)];
        for (long done = 0; done < entry.Count;)
        {
            var take = (int)Math.Min(buffer.Length / size, entry.Count - done);
            Read(entry.ValueOffset + (done * size), buffer.AsSpan(0, take * size));
            for (var i = 0; i < take; i++)
            {
                yield return Unsigned(buffer.AsSpan(i * size, size));
            }

            done += take;
        }
    }

    public double? Real(TiffEntry entry)
    {
        switch (entry.Type)
        {
            case 5 or 10:
                var (top, bottom) = (Unsigned(entry.ValueOffset, 4), Unsigned(entry.ValueOffset + 4, 4));
                return bottom == 0 ? null : top / (double)bottom;
            case 11:
                var single = BitConverter.UInt32BitsToSingle((uint)Unsigned(entry.ValueOffset, 4));
                return float.IsFinite(single) ? single : null;
            case 12:
                var real = BitConverter.Int64BitsToDouble(unchecked((long)Value(entry.ValueOffset, 8)));
                return double.IsFinite(real) ? real : null;
            case 1 or 3 or 4:
                return Unsigned(entry.ValueOffset, SizeOf(entry.Type));
            default:
                return null;
        }
    }

    public string? Text(TiffEntry entry)
    {
        if (entry.Type is not (2 or 1 or 7))
        {
            return null;
        }

        var bytes = new byte[(int)Math.Min(LongestText, entry.Count)];
        Read(entry.ValueOffset, bytes);
        var end = Array.IndexOf(bytes, (byte)0);
        return Encoding.UTF8.GetString(bytes, 0, end < 0 ? bytes.Length : end);
    }

    public SeparationException Damaged(string how) =>
        new(SeparationFault.Damaged, $"{_name} is damaged: {how}. Write the file again.");

    private static int SizeOf(int type) => type switch
    {
        1 or 2 or 6 or 7 => 1,
        3 or 8 => 2,
        4 or 9 or 11 or 13 => 4,
        5 or 10 or 12 or 16 or 17 or 18 => 8,
        _ => 0,
    };

    private long Unsigned(long offset, int bytes)
    {
        var raw = Value(offset, bytes);
        return raw > long.MaxValue ? throw Damaged("it names a place beyond any file") : (long)raw;
    }

    private ulong Value(long offset, int bytes)
    {
        var span = _small.AsSpan(0, bytes);
        Read(offset, span);
        return ValueOf(span);
    }

    private long Unsigned(ReadOnlySpan<byte> span)
    {
        var raw = ValueOf(span);
        return raw > long.MaxValue ? throw Damaged("it names a place beyond any file") : (long)raw;
    }

    private ulong ValueOf(ReadOnlySpan<byte> span) => (span.Length, _bigEndian) switch
    {
        (1, _) => span[0],
        (2, true) => BinaryPrimitives.ReadUInt16BigEndian(span),
        (2, false) => BinaryPrimitives.ReadUInt16LittleEndian(span),
        (4, true) => BinaryPrimitives.ReadUInt32BigEndian(span),
        (4, false) => BinaryPrimitives.ReadUInt32LittleEndian(span),
        (_, true) => BinaryPrimitives.ReadUInt64BigEndian(span),
        (_, false) => BinaryPrimitives.ReadUInt64LittleEndian(span),
    };

    private void Read(long offset, Span<byte> into)
    {
        if (offset < 0 || offset > Length - into.Length)
        {
            throw new SeparationException(SeparationFault.CutOff, $"{_name} is cut off or damaged: it points beyond its own end. Send it again.");
        }

        if (Raw.Read(offset, into) < into.Length)
        {
            throw new SeparationException(SeparationFault.CutOff, $"{_name} became shorter while it was read. Send it again.");
        }
    }
}

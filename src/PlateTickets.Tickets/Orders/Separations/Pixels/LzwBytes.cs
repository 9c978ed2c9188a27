using System.Buffers.Binary;
using System.Runtime.CompilerServices;

namespace PlateTickets.Tickets.Orders.Separations.Pixels;

/// <summary>
/// Compression 5, LZW: TIFF 6.0, section 13. The string of a code is what an earlier code brought plus one byte, and so lies
/// in the output as a whole: it is copied from there. The output is kept back to the last clear code, at most 8 MB.
/// </summary>
internal sealed class LzwBytes(RawReader raw) : ByteDecoder
{
    private const int Clear = 256;
    private const int EndOfInformation = 257;
    private const int Codes = 4096;
    private const int Slack = 64;
    private const int ChunkBytes = 128 * 1024;

    private readonly int[] _from = new int[Codes];
    private readonly int[] _length = new int[Codes];
    private byte[] _out = new byte[(2 * ChunkBytes) + Codes + Codes + Slack];
    private int _given;
    private int _made;
    private int _next;
    private int _width;
    private int _previous;
    private int _full;
    private ulong _bits;
    private int _have;
    private bool _ended;

    public override void Begin()
    {
        (_given, _made, _bits, _have, _ended) = (Codes, Codes, 0, 0, false);
        ClearTable();
    }

    public override int Read(Span<byte> into)
    {
        var done = 0;
        while (true)
        {
            var take = Math.Min(_made - _given, into.Length - done);
            _out.AsSpan(_given, take).CopyTo(into[done..]);
            _given += take;
            done += take;
            if (done == into.Length || _ended)
            {
                return done;
            }

            MakeRoom();
            Decode();
        }
    }

    private void ClearTable()
    {
        // The first bytes of the output are the 256 strings of one byte, then the output begins.
        for (var i = 0; i < 256 && _length[255] == 0; i++)
        {
            (_from[i], _length[i], _out[i]) = (i, 1, (byte)i);
        }

        (_next, _width, _previous, _full) = (258, 9, -1, 0);
    }

    /// <summary>Everything made was given. After a clear code nothing of it is needed; otherwise the strings of the table are.</summary>
    private void MakeRoom()
    {
        if (_next == 258 && _previous < 0)
        {
            _given = _made = Codes;
        }
        else if (_full > 0 && _previous >= 0)
        {
            // The table is full: what came after that is in no string, but the previous code may be read again from its place in the table.
            _given = _made = _full;
        }

        if (_out.Length - _made < ChunkBytes + Codes + Slack)
        {
            Array.Resize(ref _out, Math.Max(_made + ChunkBytes + Codes + Slack, _out.Length * 2));
        }
    }

    private void Decode()
    {
        unchecked
        {
            var (output, from, length) = (_out, _from, _length);
            var (bits, have, width, next, previous, made) = (_bits, _have, _width, _next, _previous, _made);
            var stop = Math.Min(_made + ChunkBytes, output.Length - Codes - Slack);
            while (made < stop)
            {
                if (have < width)
                {
                    if (raw.End - raw.Pos >= 4)
                    {
                        bits |= (ulong)BinaryPrimitives.ReadUInt32BigEndian(raw.Buffer.AsSpan(raw.Pos)) << (32 - have);
                        raw.Pos += 4;
                        have += 32;
                    }
                    else if (!raw.More() && raw.End == raw.Pos)
                    {
                        _ended = true;
                        break;
                    }
                    else
                    {
                        bits |= (ulong)raw.Buffer[raw.Pos++] << (56 - have);
                        have += 8;
                        continue;
                    }
                }

                var code = (int)(bits >> (64 - width));
                bits <<= width;
                have -= width;
                if (code < next && code != Clear && code != EndOfInformation && (previous >= 0 || code < 256))
                {
                    var count = length[code];
                    Copy(output, from[code], made, count);
                    if (previous >= 0 && next < Codes)
                    {
                        // The previous string and the first byte of this one lie together where the previous one was put.
                        from[next] = made - length[previous];
                        length[next] = length[previous] + 1;
                        next++;
                    }

                    previous = code;
                    made += count;
                }
                else if (code == next && previous >= 0 && next < Codes)
                {
                    var count = length[previous] + 1;
                    var start = made - length[previous];
                    Copy(output, start, made, count - 1);
                    output[made + count - 1] = output[start];
                    from[next] = start;
                    length[next] = count;
                    next++;
                    previous = code;
                    made += count;
                }
                else if (code == Clear)
                {
                    (next, width, previous) = (258, 9, -1);
                    _full = 0;
                    if (made - Codes > ChunkBytes / 2)
                    {
                        // Nothing before this is needed again: hand it over and begin at the front.
                        break;
                    }

                    continue;
                }
                else if (code == EndOfInformation)
                {
                    _ended = true;
                    break;
                }
                else
                {
                    throw new InvalidDataException("a code that was never made");
                }

                // TIFF changes the width one code early.
                if (next >= 511)
                {
                    width = next < 1023 ? 10 : next < 2047 ? 11 : 12;
                    if (next == Codes && _full == 0)
                    {
                        _full = made;
                    }
                }
            }

            (_bits, _have, _width, _next, _previous, _made) = (bits, have, width, next, previous, made);
        }
    }

    /// <summary>Copies forward; source and target overlap only where a string repeats itself.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Copy(byte[] output, int from, int to, int count)
    {
        if (count <= 16 && to - from >= 16)
        {
            output.AsSpan(from, 16).CopyTo(output.AsSpan(to, 16));
        }
        else
        {
            output.AsSpan(from, count).CopyTo(output.AsSpan(to, count));
        }
    }
}

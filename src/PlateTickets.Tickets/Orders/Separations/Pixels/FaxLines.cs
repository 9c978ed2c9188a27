using System.Buffers.Binary;
using System.Runtime.CompilerServices;

namespace PlateTickets.Tickets.Orders.Separations.Pixels;

/// <summary>How a CCITT strip is coded.</summary>
internal enum FaxScheme
{
    /// <summary>Compression 2: lines of run lengths, each beginning on a byte.</summary>
    ModifiedHuffman,

    /// <summary>Compression 3: lines of run lengths behind an end-of-line code.</summary>
    Group3,

    /// <summary>Compression 3 with T4Options bit 0: a bit behind the end-of-line code says whether a line refers to the one above.</summary>
    Group3TwoDimensional,

    /// <summary>Compression 4: every line refers to the one above.</summary>
    Group4,
}

/// <summary>
/// Decodes ITU-T T.4 and T.6 into the places where the colour changes. No pixel is ever painted: size, coverage and preview follow from the changes.
/// </summary>
internal sealed class FaxLines(RawReader raw, FaxScheme scheme)
{
    // Behind the last change: enough "no more" for every way in which a line can end.
    private const int Sentinels = 12;

    private int[] _line = [];
    private int[] _above = [];
    private int _pixels;
    private ulong _bits;
    private int _have;
    private int _borrowed;
    private int _countBefore;

    /// <summary>Where the colour changes, from white at 0: black begins at the first, ends before the second and so on. Rising, each below the line's width.</summary>
    public ReadOnlySpan<int> Changes => _line.AsSpan(0, Count);

    /// <summary>The same of the line before.</summary>
    public ReadOnlySpan<int> ChangesBefore => _above.AsSpan(0, _countBefore);

    private int Count { get; set; }

    /// <summary>The line just read is the same as the one above.</summary>
    public bool Same { get; private set; }

    /// <summary>Begins the strip that the reader was opened on.</summary>
    public void Begin(int pixels)
    {
        _pixels = pixels;
        if (_line.Length < pixels + (2 * Sentinels))
        {
            _line = new int[pixels + (2 * Sentinels)];
            _above = new int[pixels + (2 * Sentinels)];
        }

        (_bits, _have, _borrowed, Count) = (0, 0, 0, 0);
        Close(_line, 0);
    }

    /// <summary>Reads the next line.</summary>
    /// <exception cref="InvalidDataException">The bits are no such code.</exception>
    /// <exception cref="EndOfStreamException">The strip ends before the line does.</exception>
    public void Next()
    {
        _countBefore = Count;
        switch (scheme)
        {
            case FaxScheme.Group4:
                TwoDimensional();
                break;
            case FaxScheme.ModifiedHuffman:
                _bits <<= _have & 7;
                _have &= ~7;
                OneDimensional();
                break;
            case FaxScheme.Group3:
                EndOfLine();
                OneDimensional();
                break;
            default:
                if (!EndOfLine())
                {
                    throw new InvalidDataException("a line has no beginning");
                }

                Need();
                var alone = _bits >> 63 == 1;
                _bits <<= 1;
                _have--;
                if (alone)
                {
                    OneDimensional();
                }
                else
                {
                    TwoDimensional();
                }

                break;
        }

        if (_borrowed > 0 && _have < _borrowed)
        {
            throw new EndOfStreamException();
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void TwoDimensional()
    {
        unchecked
        {
            (_line, _above) = (_above, _line);
            var (line, above, modes, pixels) = (_line, _above, FaxCodes.Modes, _pixels);
            var (bits, have) = (_bits, _have);
            var buffer = raw.Buffer;
            var (pos, end) = (raw.Pos, raw.End - 4);
            var (count, b, at) = (0, 0, -1);
            var moved = 0;
            while (at < pixels)
            {
                if (have < 32)
                {
                    if (pos <= end)
                    {
                        bits |= (ulong)BinaryPrimitives.ReadUInt32BigEndian(buffer.AsSpan(pos)) << (32 - have);
                        pos += 4;
                        have += 32;
                    }
                    else
                    {
                        (raw.Pos, _bits, _have) = (pos, bits, have);
                        Need();
                        (pos, end, bits, have) = (raw.Pos, raw.End - 4, _bits, _have);
                    }
                }

                var entry = modes[(int)(bits >> (64 - FaxCodes.ModeBits))];
                var used = entry & 15;
                bits <<= used;
                have -= used;
                if ((entry & FaxCodes.KindMask) == FaxCodes.Vertical)
                {
                    var delta = (entry >> FaxCodes.DeltaShift) - FaxCodes.VerticalBias;
                    var change = above[b] + delta;
                    if (change <= at || change > pixels)
                    {
                        throw new InvalidDataException("a change lies outside of its line");
                    }

                    moved |= delta;
                    line[count++] = at = change;
                    b++;
                    if (above[b] <= at)
                    {
                        do
                        {
                            b += 2;
                        }
                        while (above[b] <= at && at < pixels);
                    }
                    else if (delta < 0 && b >= 2 && above[b - 2] > at)
                    {
                        b -= 2;
                    }
                }
                else if ((entry & FaxCodes.KindMask) == FaxCodes.Horizontal)
                {
                    moved = 1;
                    (raw.Pos, _bits, _have) = (pos, bits, have);
                    var white = (count & 1) == 0;
                    var first = Math.Max(at, 0) + Run(white ? FaxCodes.White : FaxCodes.Black);
                    var second = first + Run(white ? FaxCodes.Black : FaxCodes.White);
                    (pos, end, bits, have) = (raw.Pos, raw.End - 4, _bits, _have);
                    if (second > pixels)
                    {
                        throw new InvalidDataException("a line is too long");
                    }

                    count = Push(line, Push(line, count, first), second);
                    at = second;
                    while (above[b] <= at && at < pixels)
                    {
                        b += 2;
                    }
                }
                else if ((entry & FaxCodes.KindMask) == FaxCodes.Pass)
                {
                    moved = 1;
                    at = above[b + 1];
                    while (above[b] <= at && at < pixels)
                    {
                        b += 2;
                    }
                }
                else
                {
                    Refuse(entry);
                }
            }

            (raw.Pos, _bits, _have) = (pos, bits, have);
            // A line that brought nothing but zero moves is the line above, all of it.
            Same = moved == 0;
            Count = Close(line, count);
        }
    }

    private void OneDimensional()
    {
        unchecked
        {
            (_line, _above) = (_above, _line);
            var (line, pixels) = (_line, _pixels);
            var (count, at) = (0, 0);
            for (var white = true; at < pixels; white = !white)
            {
                at += Run(white ? FaxCodes.White : FaxCodes.Black);
                if (at > pixels)
                {
                    throw new InvalidDataException("a line is too long");
                }

                count = Push(line, count, at);
            }

            Same = false;
            Count = Close(line, count);
        }
    }

    /// <summary>One run, with what makes it up.</summary>
    private int Run(int[] table)
    {
        unchecked
        {
            var run = 0;
            while (true)
            {
                if (_have < 32)
                {
                    Need();
                }

                var entry = table[(int)(_bits >> (64 - FaxCodes.RunBits))];
                if (entry == 0)
                {
                    Refuse(0);
                }

                _bits <<= entry & 15;
                _have -= entry & 15;
                run += entry >> FaxCodes.RunShift;
                if ((entry & FaxCodes.MakeUp) == 0)
                {
                    return run;
                }

                if (run > _pixels)
                {
                    throw new InvalidDataException("a run is longer than its line");
                }
            }
        }
    }

    /// <summary>Passes fill bits and one end-of-line code. False when the next bits are something else.</summary>
    private bool EndOfLine()
    {
        unchecked
        {
            Need();
            if (_bits >> 53 != 0)
            {
                return false;
            }

            while (_bits >> 52 != 1)
            {
                if (_bits >> 63 != 0)
                {
                    throw new InvalidDataException("an end-of-line code is broken");
                }

                if (_borrowed > 0 && _have <= _borrowed)
                {
                    throw new EndOfStreamException();
                }

                _bits <<= 1;
                _have--;
                Need();
            }

            _bits <<= 12;
            _have -= 12;
            Need();
            // Two of them together end the image.
            return _bits >> 52 != 1 ? true : throw new EndOfStreamException();
        }
    }

    /// <summary>Makes sure of 32 bits. Behind the end of the strip they are zero, and counted.</summary>
    private void Need()
    {
        unchecked
        {
            while (_have < 32)
            {
                if (raw.Pos < raw.End || raw.More())
                {
                    _bits |= (ulong)raw.Buffer[raw.Pos++] << (56 - _have);
                }
                else
                {
                    _borrowed += 8;
                    if (_borrowed > 1024)
                    {
                        throw new EndOfStreamException();
                    }
                }

                _have += 8;
            }
        }
    }

    /// <summary>Adds a change; a run of no length takes the change before it away instead.</summary>
    private static int Push(int[] line, int count, int change)
    {
        if (count > 0 && line[count - 1] == change)
        {
            return count - 1;
        }

        line[count] = change;
        return count + 1;
    }

    private int Close(int[] line, int count)
    {
        while (count > 0 && line[count - 1] >= _pixels)
        {
            count--;
        }

        line.AsSpan(count, Sentinels).Fill(_pixels);
        return count;
    }

    private void Refuse(int entry)
    {
        if ((entry & FaxCodes.KindMask) == FaxCodes.Extension)
        {
            throw new NotSupportedException();
        }

        // All zeros are an end-of-line code, or nothing more to read: the strip stops too early.
        throw _bits >> 57 == 0 ? new EndOfStreamException() : new InvalidDataException("a code that does not exist");
    }
}

using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace PlateTickets.Tickets.Orders.Separations.Pixels;

/// <summary>
/// Counts the 1 bits of an image by cells of the preview, and finds the first and last line and column with ink. It takes lines as
/// packed bits or as the places where the colour changes. Each thread has its own; they are added up at the end.
/// </summary>
internal sealed class InkCounter
{
    // A byte holds the counts of 31 bytes of eight bits.
    private const int MostLinesInBytes = 31;

    // In a change's sum: the number of changes lies above the sum of their places.
    private const int PlaceBits = 42;

    private readonly ImageShape _shape;
    private readonly ulong _cellInverse;
    private readonly int[] _cells;
    private readonly long[] _begins;
    private readonly long[] _ends;
    private readonly byte[] _counts;
    private readonly byte[] _touched;
    private int[] _changes = [];
    private int _runRow = -1;
    private int _bitRow = -1;
    private int _bitLines;
    private int _bitFrom;
    private int _bitTo;

    public InkCounter(ImageShape shape)
    {
        _shape = shape;
        _cellInverse = ((1UL << 32) / (ulong)shape.CellWidth) + 1;
        _cells = new int[shape.CellsAcross * shape.CellsDown];
        _begins = new long[shape.CellsAcross + 1];
        _ends = new long[shape.CellsAcross + 1];
        _counts = new byte[(shape.Width + 7) / 8];
        _touched = new byte[(shape.Width + 7) / 8];
    }

    public ReadOnlySpan<int> Cells => _cells;

    public int Top { get; private set; } = int.MaxValue;

    public int Bottom { get; private set; }

    public int Left { get; private set; } = int.MaxValue;

    public int Right { get; private set; }

    /// <summary>Lines that are all alike, by the places where their colour changes.</summary>
    /// <param name="y">The first line.</param>
    /// <param name="lines">How many.</param>
    /// <param name="x">Where they begin in the image.</param>
    /// <param name="changes">Counted from there; 1 bits begin at the first.</param>
    /// <param name="pixels">How long they are in the image; what lies behind is cut off.</param>
    public void AddChanges(int y, int lines, int x, ReadOnlySpan<int> changes, int pixels)
    {
        while (changes.Length > 0 && changes[^1] >= pixels)
        {
            changes = changes[..^1];
        }

        Box(y, lines, x, changes, pixels);
        if (changes.Length == 0)
        {
            return;
        }

        while (lines > 0)
        {
            var row = y / _shape.CellHeight;
            if (row != _runRow)
            {
                FlushChanges();
                _runRow = row;
            }

            var here = Math.Min(lines, ((row + 1) * _shape.CellHeight) - y);
            Sum(changes, x, x + pixels, here);
            y += here;
            lines -= here;
        }
    }

    /// <summary>A line as packed bits, the highest first. The line is changed.</summary>
    /// <param name="y">Its place.</param>
    /// <param name="x">Where it begins in the image; a multiple of 8.</param>
    /// <param name="line">Its bytes.</param>
    /// <param name="pixels">How long it is in the image.</param>
    public void AddBits(int y, int x, Span<byte> line, int pixels)
    {
        line = line[..((pixels + 7) / 8)];
        if ((pixels & 7) != 0)
        {
            line[^1] &= (byte)(0xFF00 >> (pixels & 7) & 0xFF);
        }

        if (_shape.CellWidth < 8)
        {
            AddChanges(y, 1, x, Changes(line, pixels), pixels);
            return;
        }

        var (row, from, to) = (y / _shape.CellHeight, x / 8, (x / 8) + line.Length);
        if (row != _bitRow || from != _bitFrom || to != _bitTo || _bitLines == MostLinesInBytes)
        {
            FlushBits();
            (_bitRow, _bitFrom, _bitTo) = (row, from, to);
        }

        _bitLines++;
        if (Count(line, _counts.AsSpan(from, line.Length), _touched.AsSpan(from, line.Length), pixels))
        {
            Top = Math.Min(Top, y);
            Bottom = Math.Max(Bottom, y + 1);
        }
    }

    /// <summary>Brings everything into the cells; to be called once, after the last line.</summary>
    public void Finish()
    {
        FlushChanges();
        FlushBits();
        var first = _touched.AsSpan().IndexOfAnyExcept((byte)0);
        if (first >= 0)
        {
            var last = _touched.AsSpan().LastIndexOfAnyExcept((byte)0);
            Left = Math.Min(Left, (first * 8) + BitOperations.LeadingZeroCount(_touched[first]) - 24);
            Right = Math.Max(Right, (last * 8) + 8 - BitOperations.TrailingZeroCount(_touched[last]));
        }
    }

    public void Add(InkCounter other)
    {
        for (var i = 0; i < _cells.Length; i++)
        {
            _cells[i] += other._cells[i];
        }

        (Top, Left) = (Math.Min(Top, other.Top), Math.Min(Left, other.Left));
        (Bottom, Right) = (Math.Max(Bottom, other.Bottom), Math.Max(Right, other.Right));
    }

    private void Box(int y, int lines, int x, ReadOnlySpan<int> changes, int pixels)
    {
        var count = changes.Length;
        int left, right;
        if (!_shape.InkIsZero)
        {
            if (count == 0)
            {
                return;
            }

            (left, right) = (changes[0], (count & 1) == 0 ? changes[^1] : pixels);
        }
        else
        {
            left = count == 0 || changes[0] > 0 ? 0 : count > 1 ? changes[1] : pixels;
            right = (count & 1) == 0 ? pixels : changes[^1];
            if (left >= right)
            {
                return;
            }
        }

        Left = Math.Min(Left, x + left);
        Right = Math.Max(Right, x + right);
        Top = Math.Min(Top, y);
        Bottom = Math.Max(Bottom, y + lines);
    }

    /// <summary>Each change adds one and its place to the cell that it lies in; <see cref="FlushChanges"/> makes pixels of that.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Sum(ReadOnlySpan<int> changes, int x, int end, int lines)
    {
        unchecked
        {
            var (begins, ends, inverse) = (_begins, _ends, _cellInverse);
            if (lines == 1 && x == 0)
            {
                var i = 0;
                for (; i + 1 < changes.Length; i += 2)
                {
                    var (begin, stop) = ((ulong)(uint)changes[i], (ulong)(uint)changes[i + 1]);
                    begins[(int)(begin * inverse >> 32)] += (1L << PlaceBits) + (long)begin;
                    ends[(int)(stop * inverse >> 32)] += (1L << PlaceBits) + (long)stop;
                }

                if (i < changes.Length)
                {
                    var (begin, stop) = ((ulong)(uint)changes[i], (ulong)(uint)end);
                    begins[(int)(begin * inverse >> 32)] += (1L << PlaceBits) + (long)begin;
                    ends[(int)(stop * inverse >> 32)] += (1L << PlaceBits) + (long)stop;
                }

                return;
            }

            for (var i = 0; i < changes.Length; i += 2)
            {
                var begin = (ulong)(uint)(x + changes[i]);
                var stop = (ulong)(uint)(i + 1 < changes.Length ? x + changes[i + 1] : end);
                begins[(int)(begin * inverse >> 32)] += ((1L << PlaceBits) + (long)begin) * lines;
                ends[(int)(stop * inverse >> 32)] += ((1L << PlaceBits) + (long)stop) * lines;
            }
        }
    }

    private void FlushChanges()
    {
        if (_runRow < 0)
        {
            return;
        }

        unchecked
        {
            var cells = _cells.AsSpan(_runRow * _shape.CellsAcross, _shape.CellsAcross);
            long open = 0;
            for (var c = 0; c < cells.Length; c++)
            {
                var (left, right) = (c * (long)_shape.CellWidth, Math.Min((c + 1) * (long)_shape.CellWidth, _shape.Width));
                var sum = Inside(_begins[c], right, out var begun) - Inside(_ends[c], right, out var ended);
                cells[c] += (int)((open * (right - left)) + sum);
                open += begun - ended;
            }
        }

        Array.Clear(_begins);
        Array.Clear(_ends);
        _runRow = -1;
    }

    /// <summary>The pixels between the changes of a cell and its right edge, and how many changes those are.</summary>
    private static long Inside(long sum, long right, out long changes)
    {
        unchecked
        {
            changes = sum >> PlaceBits;
            return (changes * right) - (sum & ((1L << PlaceBits) - 1));
        }
    }

    private void FlushBits()
    {
        if (_bitLines == 0)
        {
            return;
        }

        unchecked
        {
            var counts = _counts.AsSpan(_bitFrom, _bitTo - _bitFrom);
            var bytes = _shape.CellWidth / 8;
            var cell = (_bitRow * _shape.CellsAcross) + (_bitFrom / bytes);
            var left = bytes - (_bitFrom % bytes);
            var sum = 0;
            foreach (var count in counts)
            {
                sum += count;
                if (--left == 0)
                {
                    _cells[cell++] += sum;
                    (left, sum) = (bytes, 0);
                }
            }

            if (sum != 0)
            {
                _cells[cell] += sum;
            }

            counts.Clear();
        }

        _bitLines = 0;
    }

    /// <summary>Adds the 1 bits of each byte to its count and marks where ink is. True when the line has any.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private bool Count(ReadOnlySpan<byte> line, Span<byte> counts, Span<byte> touched, int pixels)
    {
        unchecked
        {
            var flip = _shape.InkIsZero ? ulong.MaxValue : 0;
            var flips = new Vector<ulong>(flip);
            var any = Vector<ulong>.Zero;
            var whole = pixels / 8;
            var at = 0;
            var (ones, twos, fours) = (new Vector<ulong>(0x5555555555555555), new Vector<ulong>(0x3333333333333333), new Vector<ulong>(0x0f0f0f0f0f0f0f0f));
            for (; at + Vector<byte>.Count <= whole; at += Vector<byte>.Count)
            {
                var bits = Vector.AsVectorUInt64(new Vector<byte>(line[at..]));
                var ink = bits ^ flips;
                any |= ink;
                (Vector.AsVectorUInt64(new Vector<byte>(touched[at..])) | ink).As<ulong, byte>().CopyTo(touched[at..]);
                bits -= (bits >>> 1) & ones;
                bits = (bits & twos) + ((bits >>> 2) & twos);
                bits = (bits + (bits >>> 4)) & fours;
                (new Vector<byte>(counts[at..]) + Vector.AsVectorByte(bits)).CopyTo(counts[at..]);
            }

            var some = any != Vector<ulong>.Zero;
            for (; at < line.Length; at++)
            {
                var mask = at < whole ? 0xFF : 0xFF00 >> (pixels & 7) & 0xFF;
                var ink = (byte)((line[at] ^ (byte)flip) & mask);
                some |= ink != 0;
                touched[at] |= ink;
                counts[at] += (byte)BitOperations.PopCount(line[at]);
            }

            return some;
        }
    }

    private ReadOnlySpan<int> Changes(ReadOnlySpan<byte> line, int pixels)
    {
        if (_changes.Length < pixels + 1)
        {
            _changes = new int[pixels + 1];
        }

        unchecked
        {
            var (count, before) = (0, 0u);
            var words = MemoryMarshal.Cast<byte, uint>(line);
            for (var w = 0; w * 4 < line.Length; w++)
            {
                var word = w < words.Length ? System.Buffers.Binary.BinaryPrimitives.ReverseEndianness(words[w]) : Last(line[(w * 4)..]);
                for (var edges = word ^ ((word >> 1) | (before << 31)); edges != 0; edges &= ~(0x80000000u >> BitOperations.LeadingZeroCount(edges)))
                {
                    var change = (w * 32) + BitOperations.LeadingZeroCount(edges);
                    if (change >= pixels)
                    {
                        break;
                    }

                    _changes[count++] = change;
                }

                before = word & 1;
            }

            return _changes.AsSpan(0, count);
        }
    }

    private static uint Last(ReadOnlySpan<byte> bytes)
    {
        uint word = 0;
        for (var i = 0; i < bytes.Length; i++)
        {
            word |= (uint)bytes[i] << (24 - (8 * i));
        }

        return word;
    }
}

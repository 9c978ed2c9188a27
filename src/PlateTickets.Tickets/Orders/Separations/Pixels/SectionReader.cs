namespace PlateTickets.Tickets.Orders.Separations.Pixels;

/// <summary>Decodes sections of one image on one thread into its own counter.</summary>
internal sealed class SectionReader : IDisposable
{
    private const int BlockBytes = 128 * 1024;

    private readonly RawReader _raw;
    private readonly FaxLines? _fax;
    private readonly ByteDecoder? _bytes;
    private byte[] _block = [];

    public SectionReader(RawFile file, ImageShape shape, long compression, long options, bool reversed)
    {
        Counter = new InkCounter(shape);
        _raw = new RawReader(file, reversed);
        (_fax, _bytes) = compression switch
        {
            2 => (new FaxLines(_raw, FaxScheme.ModifiedHuffman), (ByteDecoder?)null),
            3 => (new FaxLines(_raw, (options & 1) != 0 ? FaxScheme.Group3TwoDimensional : FaxScheme.Group3), null),
            4 => (new FaxLines(_raw, FaxScheme.Group4), null),
            5 => (null, new LzwBytes(_raw)),
            8 or 32946 => (null, new DeflateBytes(_raw)),
            32773 => (null, new PackBitsBytes(_raw)),
            _ => (null, new PlainBytes(_raw)),
        };
    }

    public InkCounter Counter { get; }

    /// <param name="section">What to read.</param>
    /// <param name="told">Called now and then with the pixels since the last call; may throw to stop.</param>
    public void Read(ImageSection section, Action<long> told)
    {
        _raw.Open(section.Offset, section.Bytes);
        if (_fax is not null)
        {
            ReadChanges(_fax, section, told);
        }
        else
        {
            ReadBits(_bytes!, section, told);
        }
    }

    public void Dispose() => (_bytes as IDisposable)?.Dispose();

    private void ReadChanges(FaxLines fax, ImageSection section, Action<long> told)
    {
        fax.Begin(section.Coded);
        // Lines that are like the one above wait, and are counted together.
        var waiting = 0;
        for (var line = 0; line < section.Lines; line++)
        {
            fax.Next();
            if (waiting > 0 && !fax.Same)
            {
                Counter.AddChanges(section.Y + line - waiting, waiting, section.X, fax.ChangesBefore, section.Pixels);
                waiting = 0;
            }

            waiting++;
            if ((line & 255) == 255)
            {
                told(256L * section.Pixels);
            }
        }

        Counter.AddChanges(section.Y + section.Lines - waiting, waiting, section.X, fax.Changes, section.Pixels);
        told((section.Lines & 255) * (long)section.Pixels);
    }

    private void ReadBits(ByteDecoder bytes, ImageSection section, Action<long> told)
    {
        bytes.Begin();
        var lineBytes = (section.Coded + 7) / 8;
        var lines = Math.Clamp(BlockBytes / lineBytes, 1, section.Lines);
        if (_block.Length < lines * lineBytes)
        {
            _block = new byte[lines * lineBytes];
        }

        for (var line = 0; line < section.Lines; line += lines)
        {
            var here = Math.Min(lines, section.Lines - line);
            var block = _block.AsSpan(0, here * lineBytes);
            if (bytes.Read(block) < block.Length)
            {
                throw new EndOfStreamException();
            }

            for (var i = 0; i < here; i++)
            {
                Counter.AddBits(section.Y + line + i, section.X, block.Slice(i * lineBytes, lineBytes), section.Pixels);
            }

            told((long)here * section.Pixels);
        }
    }
}

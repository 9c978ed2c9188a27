namespace PlateTickets.Tickets.Orders.Separations.Pixels;

/// <summary>Compression 32773, PackBits: TIFF 6.0, section 9.</summary>
internal sealed class PackBitsBytes(RawReader raw) : ByteDecoder
{
    private int _literal;
    private int _repeat;
    private byte _value;

    public override void Begin() => (_literal, _repeat) = (0, 0);

    public override int Read(Span<byte> into)
    {
        var done = 0;
        while (done < into.Length)
        {
            if (_repeat > 0)
            {
                var run = Math.Min(_repeat, into.Length - done);
                into.Slice(done, run).Fill(_value);
                _repeat -= run;
                done += run;
            }
            else if (_literal > 0)
            {
                if (raw.Pos == raw.End && !raw.More())
                {
                    break;
                }

                var run = Math.Min(Math.Min(_literal, raw.End - raw.Pos), into.Length - done);
                raw.Buffer.AsSpan(raw.Pos, run).CopyTo(into[done..]);
                raw.Pos += run;
                _literal -= run;
                done += run;
            }
            else if (!Header())
            {
                break;
            }
        }

        return done;
    }

    private bool Header()
    {
        if (raw.End - raw.Pos < 2 && !raw.More() && raw.End == raw.Pos)
        {
            return false;
        }

        var header = (sbyte)unchecked((sbyte)raw.Buffer[raw.Pos++]);
        if (header >= 0)
        {
            _literal = header + 1;
        }
        else if (header != -128)
        {
            if (raw.Pos == raw.End)
            {
                return false;
            }

            _repeat = 1 - header;
            _value = raw.Buffer[raw.Pos++];
        }

        return true;
    }
}

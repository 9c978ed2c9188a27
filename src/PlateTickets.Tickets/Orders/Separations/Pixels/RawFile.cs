using Microsoft.Win32.SafeHandles;

namespace PlateTickets.Tickets.Orders.Separations.Pixels;

/// <summary>Reads a file at any place, from several threads at once.</summary>
internal sealed class RawFile(Stream stream)
{
    private readonly SafeFileHandle? _handle = (stream as FileStream)?.SafeFileHandle;
    private readonly Lock _gate = new();

    /// <summary>Fills as much as the file still holds; returns how many bytes that was.</summary>
    public int Read(long offset, Span<byte> into)
    {
        var done = 0;
        while (done < into.Length)
        {
            var got = _handle is null ? ReadStream(offset + done, into[done..]) : RandomAccess.Read(_handle, into[done..], offset + done);
            if (got == 0)
            {
                break;
            }

            done += got;
        }

        return done;
    }

    private int ReadStream(long offset, Span<byte> into)
    {
        lock (_gate)
        {
            stream.Position = offset;
            return stream.Read(into);
        }
    }
}

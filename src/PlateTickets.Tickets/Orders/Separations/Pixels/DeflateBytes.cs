using System.IO.Compression;

namespace PlateTickets.Tickets.Orders.Separations.Pixels;

/// <summary>Compressions 8 and 32946: zlib (RFC 1950).</summary>
internal sealed class DeflateBytes(RawReader raw) : ByteDecoder, IDisposable
{
    private ZLibStream? _zlib;

    public override void Begin()
    {
        _zlib?.Dispose();
        _zlib = new ZLibStream(new RawStream(raw), CompressionMode.Decompress);
    }

    public override int Read(Span<byte> into) => _zlib!.ReadAtLeast(into, into.Length, throwOnEndOfStream: false);

    public void Dispose() => _zlib?.Dispose();

    private sealed class RawStream(RawReader raw) : Stream
    {
        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

        public override int Read(Span<byte> buffer) => raw.Read(buffer);

        public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

        public override void Flush()
        {
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}

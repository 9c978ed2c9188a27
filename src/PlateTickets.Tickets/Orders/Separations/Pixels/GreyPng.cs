using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;

namespace PlateTickets.Tickets.Orders.Separations.Pixels;

/// <summary>Writes an 8-bit grey PNG: W3C PNG specification, colour type 0, filter 2 (up) on every line.</summary>
internal static class GreyPng
{
    private static readonly byte[] Signature = [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];

    public static byte[] Write(ReadOnlySpan<byte> grey, int width, int height)
    {
        using var png = new MemoryStream();
        png.Write(Signature);
        Span<byte> head = stackalloc byte[13];
        BinaryPrimitives.WriteInt32BigEndian(head, width);
        BinaryPrimitives.WriteInt32BigEndian(head[4..], height);
        head[8] = 8;
        Chunk(png, "IHDR", head);
        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.Fastest, leaveOpen: true))
        {
            var line = new byte[width + 1];
            line[0] = 2;
            for (var y = 0; y < height; y++)
            {
                var here = grey.Slice(y * width, width);
                for (var x = 0; x < width; x++)
                {
                    line[x + 1] = unchecked((byte)(here[x] - (y == 0 ? 0 : grey[((y - 1) * width) + x])));
                }

                zlib.Write(line);
            }
        }

        Chunk(png, "IDAT", packed.GetBuffer().AsSpan(0, (int)packed.Length));
        Chunk(png, "IEND", []);
        return png.ToArray();
    }

    private static void Chunk(MemoryStream png, string type, ReadOnlySpan<byte> content)
    {
        Span<byte> number = stackalloc byte[4];
        BinaryPrimitives.WriteInt32BigEndian(number, content.Length);
        png.Write(number);
        Span<byte> name = stackalloc byte[4];
        Encoding.ASCII.GetBytes(type, name);
        png.Write(name);
        png.Write(content);
        BinaryPrimitives.WriteUInt32BigEndian(number, Crc(name, content));
        png.Write(number);
    }

    /// <summary>The CRC of the PNG specification, annex D.</summary>
    private static uint Crc(ReadOnlySpan<byte> name, ReadOnlySpan<byte> content)
    {
        var crc = Run(Run(uint.MaxValue, name), content);
        return ~crc;
    }

    private static uint Run(uint crc, ReadOnlySpan<byte> bytes)
    {
        foreach (var b in bytes)
        {
            crc = Table[(crc ^ b) & 0xFF] ^ (crc >> 8);
        }

        return crc;
    }

    private static readonly uint[] Table = [.. Enumerable.Range(0, 256).Select(n =>
    {
        var c = (uint)n;
        for (var k = 0; k < 8; k++)
        {
            c = (c & 1) != 0 ? 0xEDB88320 ^ (c >> 1) : c >> 1;
        }

        return c;
    })];
}

using System.Buffers.Binary;
using PlateTickets.Tickets.Orders.Separations;

namespace PlateTickets.Tickets.Tests.Orders.Separations;

/// <summary>Runs by itself: it measures what the whole process allocates.</summary>
[CollectionDefinition(nameof(MeasuresMemory), DisableParallelization = true)]
public sealed class MeasuresMemory;

/// <summary>Files as large as they come: memory must not follow their size.</summary>
[Collection(nameof(MeasuresMemory))]
public class LargeFileTests
{
    [Fact]
    public void BigTiffOfFiveGigabytes_IsReadInLittleMemory()
    {
        // 200 000 x 200 000 pixels, uncompressed, a strip for each line: the tables alone are 3.2 MB. The file is sparse.
        const int side = 200_000;
        const long rowBytes = side / 8;
        var path = Path.Combine(Path.GetTempPath(), $"big({Guid.NewGuid():N}).tif");
        try
        {
            using var file = new FileStream(path, FileMode.CreateNew);
            WriteBigTiff(file, side, rowBytes);
            Assert.True(file.Length > 4L << 30);
            var before = GC.GetTotalAllocatedBytes(precise: true);
            var read = SeparationReader.Read(file, "big-K.tif");
            Assert.True(GC.GetTotalAllocatedBytes(precise: true) - before < 40_000_000, "Reading a 5 GB file took more than 40 MB.");
            Assert.Equal((0.0, null), (read.Image!.Coverage, read.Image.Box));
            Assert.Equal((side, side, "Black"), (read.WidthPixels, read.HeightPixels, read.Colour));
            Assert.Equal(2000, read.WidthMm, 1e-9);
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public async Task Spooling_DoesNotKeepTheFileInMemory()
    {
        var folder = Directory.CreateTempSubdirectory("spool-").FullName;
        try
        {
            const long length = 256L << 20;
            var before = GC.GetTotalAllocatedBytes(precise: true);
            await using (var spooled = await SpoolFile.SpoolAsync(new Zeros(length), folder, length, null, CancellationToken.None))
            {
                Assert.Equal(length, spooled.Length);
                // SHA-256 of 256 MiB of zero bytes, computed with sha256sum.
                Assert.Equal("a6d72ac7690f53be6ae46ba88506bd97302a093f7108472bd9efc3cefda06484", spooled.Sha256Hex);
            }

            Assert.True(GC.GetTotalAllocatedBytes(precise: true) - before < 20_000_000, "Spooling 256 MiB allocated more than 20 MB.");
            Assert.Empty(Directory.GetFiles(folder));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task TooLongAFile_IsRefused_AndLeavesNothingBehind()
    {
        var folder = Directory.CreateTempSubdirectory("spool-").FullName;
        try
        {
            var refused = await Assert.ThrowsAsync<SeparationException>(
                () => SpoolFile.SpoolAsync(new Zeros(3 << 20), folder, 2 << 20, null, CancellationToken.None));
            Assert.Equal(SeparationFault.TooLarge, refused.Fault);
            Assert.Contains("longer than 2 MiB", refused.Message, StringComparison.Ordinal);
            Assert.Empty(Directory.GetFiles(folder));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static void WriteBigTiff(FileStream file, int side, long rowBytes)
    {
        const int data = 16;
        var offsets = data + (rowBytes * side);
        var counts = offsets + (8L * side);
        var directory = counts + (8L * side);
        file.SetLength(directory + 400);
        var head = new byte[16];
        "II"u8.CopyTo(head);
        BinaryPrimitives.WriteUInt16LittleEndian(head.AsSpan(2), 43);
        BinaryPrimitives.WriteUInt16LittleEndian(head.AsSpan(4), 8);
        BinaryPrimitives.WriteInt64LittleEndian(head.AsSpan(8), directory);
        file.Write(head);

        var table = new byte[16L * side];
        for (var row = 0; row < side; row++)
        {
            BinaryPrimitives.WriteInt64LittleEndian(table.AsSpan(8 * row), data + (rowBytes * row));
            BinaryPrimitives.WriteInt64LittleEndian(table.AsSpan(8 * (side + row)), rowBytes);
        }

        file.Position = offsets;
        file.Write(table);

        (int Tag, int Type, long Count, long Value)[] entries =
        [
            (256, 4, 1, side), (257, 4, 1, side), (258, 3, 1, 1), (259, 3, 1, 1), (262, 3, 1, 0), (273, 16, side, offsets), (277, 3, 1, 1),
            (278, 4, 1, 1), (279, 16, side, counts), (282, 5, 1, 1000L | (1L << 32)), (283, 5, 1, 1000L | (1L << 32)), (296, 3, 1, 3),
        ];
        var bytes = new byte[8 + (20 * entries.Length) + 8];
        BinaryPrimitives.WriteInt64LittleEndian(bytes, entries.Length);
        for (var i = 0; i < entries.Length; i++)
        {
            var at = bytes.AsSpan(8 + (20 * i));
            BinaryPrimitives.WriteUInt16LittleEndian(at, (ushort)entries[i].Tag);
            BinaryPrimitives.WriteUInt16LittleEndian(at[2..], (ushort)entries[i].Type);
            BinaryPrimitives.WriteInt64LittleEndian(at[4..], entries[i].Count);
            BinaryPrimitives.WriteInt64LittleEndian(at[12..], entries[i].Value);
        }

        file.Position = directory;
        file.Write(bytes);
        file.Flush();
    }

    private sealed class Zeros(long length) : Stream
    {
        private long _left = length;

        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

        public override int Read(byte[] buffer, int offset, int count)
        {
            var got = (int)Math.Min(count, _left);
            Array.Clear(buffer, offset, got);
            _left -= got;
            return got;
        }

        public override void Flush() => throw new NotSupportedException();

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}

using System.Buffers.Binary;
using System.Diagnostics;
using System.IO.Compression;
using PlateTickets.Tickets.Orders.Separations;

namespace PlateTickets.Tickets.Tests.Orders.Separations;

/// <summary>Files that lie, break off or are made to keep a reader busy. Runs by itself: it measures memory.</summary>
[Collection(nameof(MeasuresMemory))]
public sealed class HostileFilesTests(ScreenedFiles files) : IClassFixture<ScreenedFiles>
{
    private static readonly string[][] Kinds =
    [
        ["-c", "g4"], ["-c", "g3"], ["-c", "g3:2d", "-r", "16"], ["-c", "lzw"], ["-c", "zip", "-r", "40"], ["-c", "packbits"], ["-c", "none", "-B"],
        ["-c", "g4", "-t", "-w", "128", "-l", "64", "-8"], ["-c", "lzw", "-f", "lsb2msb", "-t", "-w", "64", "-l", "64"],
    ];

    /// <summary>Real files with changed, cut, swapped or repeated bytes: an answer or a refusal, nothing else.</summary>
    [Fact]
    public void MutatedRealFiles_GiveAnAnswerOrARefusal()
    {
        var originals = Kinds.Select((k, i) => File.ReadAllBytes(files.Copy(files.Small, $"fuzz-{i}", k))).ToList();
        var (random, watch) = (new Random(20261126), Stopwatch.StartNew());
        var (read, refused, longest) = (0, 0, TimeSpan.Zero);
        for (var i = 0; i < 4500; i++)
        {
            var bytes = Mutated((byte[])originals[i % originals.Count].Clone(), random);
            var from = watch.Elapsed;
            try
            {
                var facts = SeparationReader.Read(new MemoryStream(bytes), "fuzz.tif");
                Assert.InRange(facts.Image!.Coverage, 0, 1);
                read++;
            }
            catch (SeparationException)
            {
                refused++;
            }

            longest = watch.Elapsed - from > longest ? watch.Elapsed - from : longest;
        }

        Assert.InRange(read, 300, 4200);
        Assert.InRange(refused, 300, 4200);
        Assert.True(longest < TimeSpan.FromSeconds(20), $"One damaged file took {longest}.");
    }

    [Fact]
    public void DataCutOff_WithAWholeHeader_AreRefused_InEveryCompression()
    {
        foreach (var compression in new[] { "g4", "g3", "g3:2d", "lzw", "zip", "packbits" })
        {
            var bytes = File.ReadAllBytes(files.Copy(files.Small, $"stops-{Guid.NewGuid():N}", "-c", compression, "-r", "100000"));
            // The strip's own length says a tenth less: the structure is right, the data stop early.
            Shorten(bytes);
            var refused = Assert.Throws<SeparationException>(() => _ = SeparationReader.Read(new MemoryStream(bytes), "stops.tif"));
            Assert.True(refused.Fault is SeparationFault.CutOff or SeparationFault.Damaged, $"{compression}: {refused.Message}");
        }
    }

    [Fact]
    public void DecompressionBomb_IsReadInLittleMemory_AndRefused()
    {
        // 64 KB of deflate that become 64 MB, in a file that says it has eight lines; and one that says it has the lines for it all.
        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.SmallestSize, leaveOpen: true))
        {
            zlib.Write(new byte[64 << 20]);
        }

        var before = GC.GetTotalAllocatedBytes(precise: true);
        var few = SeparationReader.Read(new MemoryStream(OneStrip(packed.ToArray(), 8, 800, 8)), "bomb(Black).tif");
        Assert.Equal(0, few.Image!.Coverage);
        var whole = SeparationReader.Read(new MemoryStream(OneStrip(packed.ToArray(), 8, 80_000, 6_710)), "bomb(Black).tif");
        Assert.Equal(0, whole.Image!.Coverage);
        Assert.True(GC.GetTotalAllocatedBytes(precise: true) - before < 40_000_000);
        var refused = Assert.Throws<SeparationException>(() => _ = SeparationReader.Read(new MemoryStream(OneStrip(packed.ToArray(), 8, 80_000, 1_000_000)), "bomb(Black).tif"));
        Assert.Equal(SeparationFault.CutOff, refused.Fault);
    }

    [Fact]
    public void GroupFourThatSaysBlankForever_EndsWithItsData()
    {
        // Each 1 bit is a blank line of two million pixels: 4 KB make 32,768 of them.
        var data = new byte[4096];
        data.AsSpan().Fill(0xFF);
        var watch = Stopwatch.StartNew();
        var blank = SeparationReader.Read(new MemoryStream(OneStrip(data, 4, 2_000_000, 32_000)), "blank(Black).tif");
        Assert.Null(blank.Image!.Box);
        Assert.Throws<SeparationException>(() => SeparationReader.Read(new MemoryStream(OneStrip(data, 4, 2_000_000, 40_000)), "blank(Black).tif"));
        Assert.True(watch.Elapsed < TimeSpan.FromSeconds(20));
    }

    [Fact]
    public void MorePixelsThanAnyPlate_AreRefusedAtOnce()
    {
        var refused = Assert.Throws<SeparationException>(() => SeparationReader.Read(new MemoryStream(OneStrip(new byte[64], 4, 2_000_000_000, 1_000)), "vast(Black).tif"));
        Assert.Equal(SeparationFault.TooLarge, refused.Fault);
        Assert.Contains("more than any plate has", refused.Message, StringComparison.Ordinal);
    }

    private static byte[] Mutated(byte[] bytes, Random random)
    {
        for (var change = random.Next(1, 5); change > 0; change--)
        {
            var at = random.Next(bytes.Length);
            switch (random.Next(5))
            {
                case 0:
                    bytes[at] ^= (byte)(1 << random.Next(8));
                    break;
                case 1:
                    bytes[at] = (byte)random.Next(256);
                    break;
                case 2:
                    var length = random.Next(1, Math.Min(40, bytes.Length - at) + 1);
                    bytes.AsSpan(random.Next(bytes.Length - length), length).CopyTo(bytes.AsSpan(at));
                    break;
                case 3:
                    // In the structure: libtiff writes it at the end.
                    bytes[bytes.Length - 1 - random.Next(Math.Min(260, bytes.Length))] = (byte)random.Next(256);
                    break;
                default:
                    if (random.Next(4) == 0)
                    {
                        bytes = bytes[..random.Next(16, bytes.Length)];
                    }

                    break;
            }
        }

        return bytes;
    }

    /// <summary>Takes a tenth off tag 279 of a little-endian file with one strip.</summary>
    private static void Shorten(byte[] bytes)
    {
        var directory = BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan(4));
        for (var entry = 0; entry < BinaryPrimitives.ReadUInt16LittleEndian(bytes.AsSpan(directory)); entry++)
        {
            var at = bytes.AsSpan(directory + 2 + (12 * entry));
            if (BinaryPrimitives.ReadUInt16LittleEndian(at) == 279)
            {
                var wide = BinaryPrimitives.ReadUInt16LittleEndian(at[2..]) == 4;
                var length = wide ? BinaryPrimitives.ReadInt32LittleEndian(at[8..]) : BinaryPrimitives.ReadUInt16LittleEndian(at[8..]);
                BinaryPrimitives.WriteInt32LittleEndian(at[8..], length * 9 / 10);
                return;
            }
        }

        Assert.Fail("The file has no strip lengths.");
    }

    private static byte[] OneStrip(byte[] data, int compression, int width, int height)
    {
        var bytes = new byte[400 + data.Length];
        TinyTiff.Write(
            bytes, (256, 4, width), (257, 4, height), (258, 3, 1), (259, 3, compression), (262, 3, 0), (273, 4, 400), (277, 3, 1), (278, 4, height), (279, 4, data.Length),
            (282, 4, 4000), (283, 4, 4000), (296, 3, 2));
        data.CopyTo(bytes, 400);
        return bytes;
    }
}

using System.Text.RegularExpressions;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Orders.Separations;

namespace PlateTickets.Tickets.Tests.Orders.Separations;

/// <summary>Expected values come from the producer's own facts (page size x resolution) and from libtiff's tiffinfo as an independent reader.</summary>
public sealed partial class SeparationReaderTests(ProducedFiles files) : IClassFixture<ProducedFiles>
{
    [Fact]
    public void Ghostscript_FiveColours_G4AndUncompressed()
    {
        foreach (var set in new[] { files.Ghostscript, files.Uncompressed })
        {
            var read = set.Select(Read).ToList();
            Assert.Equal(["Black", "Cyan", GhostscriptJob.Spot, "Magenta", "Yellow"], read.Select(r => r.Colour).Order());
            Assert.All(read, r =>
            {
                Assert.Equal(ProducedFiles.WidthMm, r.WidthMm, 0.05);
                Assert.Equal(ProducedFiles.HeightMm, r.HeightMm, 0.05);
                Assert.Equal(ColourSource.FileName, r.ColourFrom);
                Assert.True(r.InkIsZero, "tiffsep1 writes photometric 1 with ink as 0 bits.");
            });
        }

        Assert.All(files.Ghostscript, f => Assert.Equal("CCITT G4", Read(f).Compression));
        Assert.All(files.Uncompressed, f => Assert.Equal("none", Read(f).Compression));
    }

    [Theory]
    [InlineData("none", "none")]
    [InlineData("packbits", "PackBits")]
    [InlineData("lzw", "LZW")]
    [InlineData("zip", "Deflate")]
    [InlineData("g3", "CCITT G3")]
    [InlineData("g4", "CCITT G4")]
    public void Libtiff_EveryCompression(string option, string compression)
    {
        var read = Read(files.Copy($"copy-{option}.tif", "-c", option));
        Assert.Equal(compression, read.Compression);
        Same(Read(files.Cyan), read);
    }

    [Theory]
    [InlineData("lsb", "-f", "lsb2msb")]
    [InlineData("big-endian", "-B")]
    [InlineData("bigtiff", "-8")]
    [InlineData("bigtiff-big-endian", "-8", "-B")]
    [InlineData("tiles", "-t", "-w", "256", "-l", "256")]
    [InlineData("one-strip", "-r", "100000")]
    public void Libtiff_EveryShapeOfFile(string name, params string[] options) =>
        Same(Read(files.Cyan), Read(files.Copy($"{name}.tif", ["-c", "none", .. options])));

    [Fact]
    public void Size_IsWhatTiffinfoSays()
    {
        var info = Tool.Run("libtiff-tools", "tiffinfo", files.Cyan);
        var size = Size().Match(info);
        var read = Read(files.Cyan);
        Assert.Equal(int.Parse(size.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture), read.WidthPixels);
        Assert.Equal(int.Parse(size.Groups[2].Value, System.Globalization.CultureInfo.InvariantCulture), read.HeightPixels);
        Assert.Contains("Resolution: 600, 600 pixels/inch", info, StringComparison.Ordinal);
        Assert.Equal(600 / 25.4, read.XPixelsPerMm, 1e-9);
    }

    [Fact]
    public void ResolutionPerCentimetre_IsNotPerInch()
    {
        // TIFF 6.0, ResolutionUnit: 2 is the inch, 3 the centimetre.
        var read = Read(files.WithTag("per-cm.tif", "-s", "296", "3"));
        Assert.Equal(60, read.XPixelsPerMm, 1e-9);
        Assert.Equal(Read(files.Cyan).WidthPixels / 60.0, read.WidthMm, 1e-9);
    }

    [Theory]
    [InlineData("1", false)]
    [InlineData("3", false)]
    [InlineData("6", true)]
    [InlineData("8", true)]
    public void Orientation_FromFive_SwapsTheAxes(string orientation, bool swapped)
    {
        var (plain, read) = (Read(files.Cyan), Read(files.WithTag($"orientation-{orientation}.tif", "-s", "274", orientation)));
        Assert.Equal(swapped ? plain.HeightMm : plain.WidthMm, read.WidthMm, 1e-9);
        Assert.Equal(swapped ? plain.WidthPixels : plain.HeightPixels, read.HeightPixels);
    }

    [Fact]
    public void PageName_NamesTheColour_WhenTheFileNameDoesNot()
    {
        var read = Read(files.WithTag("front.tif", "-s", "285", "Leaf Green"));
        Assert.Equal(("Leaf Green", ColourSource.PageName), (read.Colour, read.ColourFrom));
    }

    [Fact]
    public void TagAndFileName_Disagree_BothAreKept()
    {
        var read = Read(files.WithTag("front(Cyan).tif", "-s", "285", "Magenta"));
        Assert.Equal(("Cyan", ColourSource.FileName, "Magenta"), (read.Colour, read.ColourFrom, read.TagColour));
    }

    [Fact]
    public void NothingNamesTheColour_ItStaysEmpty()
    {
        var read = Read(files.Copy("front_final.tif", "-c", "g4"));
        Assert.Equal(("", ColourSource.None), (read.Colour, read.ColourFrom));
    }

    [Fact]
    public void GreyAndColourImages_AreRefusedWithWhatTheyAre()
    {
        Refused(Made("grey.tif", "-colorspace", "Gray", "-depth", "8"), SeparationFault.NotOneBit, "grey.tif is not a one-bit image: it has 8 bits a pixel");
        Refused(Made("rgb.tif", "-depth", "8"), SeparationFault.NotOneBit, "3 channels of 8 bits");
    }

    [Fact]
    public void NoResolution_IsRefused()
    {
        Refused(files.WithTag("unit-none.tif", "-s", "296", "1"), SeparationFault.NoResolution, "has no resolution, so its size in mm is unknown");
        Refused(files.WithTag("zero.tif", "-s", "282", "0"), SeparationFault.NoResolution, "has no resolution");
    }

    [Fact]
    public void SeveralImages_AreRefused()
    {
        var file = Path.Combine(files.Folder, "two.tif");
        Tool.Run("libtiff-tools", "tiffcp", files.Cyan, files.Cyan, file);
        Refused(file, SeparationFault.SeveralImages, "holds 2 images");
    }

    [Theory]
    [InlineData("%PDF-1.7 x", "a PDF, not a TIFF file")]
    [InlineData("plain text", "is not a TIFF file")]
    [InlineData("", "is empty")]
    [InlineData("%!PS-Adobe", "a PostScript or EPS file")]
    public void OtherFiles_AreNamed(string content, string words) =>
        Refused(new MemoryStream(System.Text.Encoding.ASCII.GetBytes(content)), "file.tif", SeparationFault.NotTiff, words);

    [Fact]
    public void CutOffFiles_AreRefused_WhereverTheyAreCut()
    {
        foreach (var file in new[] { files.Cyan, files.Copy("cut.tif", "-c", "none"), files.Copy("cut-big.tif", "-8") })
        {
            var bytes = File.ReadAllBytes(file);
            foreach (var share in new[] { 0.02, 0.3, 0.6, 0.9 })
            {
                var cut = bytes[..(int)(bytes.Length * share)];
                var refused = Assert.Throws<SeparationException>(() => _ = SeparationReader.Read(new MemoryStream(cut), $"{Path.GetFileName(file)} {share}"));
                Assert.True(refused.Fault is SeparationFault.CutOff or SeparationFault.Damaged, refused.Message);
            }
        }
    }

    [Fact]
    public void HundredBytesThatClaimFourBillionLines_AreRefusedAtOnce()
    {
        var bytes = new byte[100];
        TinyTiff.Write(bytes, (256, 4, 1000), (257, 4, 0x7fffffff), (258, 3, 1), (259, 3, 1), (262, 3, 1), (273, 4, 8), (278, 4, 0x7fffffff), (279, 4, 90));
        Refused(new MemoryStream(bytes), "lying.tif", SeparationFault.CutOff, "lying.tif is cut off");
        TinyTiff.Write(bytes, (256, 4, 1000), (257, 4, unchecked((int)0xffffffff)), (258, 3, 1), (273, 4, 8), (279, 4, 90));
        Refused(new MemoryStream(bytes), "lying.tif", SeparationFault.Damaged, "its height is given as 4294967295 pixels");
    }

    [Fact]
    public void DirectoriesInACircle_AreRefused()
    {
        var bytes = new byte[100];
        TinyTiff.Write(bytes, (256, 4, 8), (257, 4, 8), (258, 3, 1));
        TinyTiff.Next(bytes, 3, 8);
        Refused(new MemoryStream(bytes), "circle.tif", SeparationFault.Damaged, "in a circle");
    }

    /// <summary>Real files with bytes changed, cut or repeated: an answer or a refusal, never anything else, in bounded memory.</summary>
    [Fact]
    public void MutatedFiles_NeverDoAnythingElse()
    {
        var originals = new[] { files.Copy("fuzz-g4.tif", "-c", "g4"), files.Copy("fuzz-big.tif", "-8", "-c", "lzw"), files.Copy("fuzz-tiles.tif", "-B", "-t", "-w", "256", "-l", "256") }
            .Select(File.ReadAllBytes).ToList();
        var random = new Random(20261125);
        var refused = 0;
        for (var i = 0; i < 6000; i++)
        {
            var bytes = (byte[])originals[i % originals.Count].Clone();
            var structure = Structure(bytes);
            for (var change = random.Next(1, 6); change > 0; change--)
            {
                // Mostly in the header and the directory, where it hurts.
                var at = random.Next(3) == 0 ? random.Next(bytes.Length) : structure + random.Next(Math.Min(300, bytes.Length - structure));
                bytes[Math.Min(at, bytes.Length - 1)] = (byte)random.Next(256);
            }

            var length = random.Next(4) == 0 ? random.Next(bytes.Length) : bytes.Length;
            try
            {
                SeparationReader.Read(new MemoryStream(bytes, 0, length), "fuzz.tif");
            }
            catch (SeparationException)
            {
                refused++;
            }
        }

        Assert.InRange(refused, 1000, 6000);
    }

    private static int Structure(byte[] bytes)
    {
        var big = bytes[2] == 43 || bytes[3] == 43;
        var offset = bytes.AsSpan(big ? 8 : 4, 4);
        var at = bytes[0] == (byte)'M'
            ? System.Buffers.Binary.BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(big ? 12 : 4, 4))
            : System.Buffers.Binary.BinaryPrimitives.ReadInt32LittleEndian(offset);
        return Math.Clamp(at, 0, bytes.Length - 1);
    }

    private string Made(string name, params IEnumerable<string> options)
    {
        var file = Path.Combine(files.Folder, name);
        Tool.Run("imagemagick", "convert", ["-size", "60x40", "gradient:red-blue", .. options, "-density", "300", file]);
        return file;
    }

    private static SeparationFacts Read(string file)
    {
        using var stream = File.OpenRead(file);
        return SeparationReader.Read(stream, Path.GetFileName(file));
    }

    private static void Same(SeparationFacts expected, SeparationFacts read) => Assert.Equal(
        (expected.WidthPixels, expected.HeightPixels, expected.WidthMm, expected.HeightMm, expected.InkIsZero),
        (read.WidthPixels, read.HeightPixels, read.WidthMm, read.HeightMm, read.InkIsZero));

    private static void Refused(string file, SeparationFault fault, string words)
    {
        using var stream = File.OpenRead(file);
        Refused(stream, Path.GetFileName(file), fault, words);
    }

    private static void Refused(Stream stream, string name, SeparationFault fault, string words)
    {
        var refused = Assert.Throws<SeparationException>(() => SeparationReader.Read(stream, name));
        Assert.Contains(words, refused.Message, StringComparison.Ordinal);
        Assert.Equal(fault, refused.Fault);
    }

    [GeneratedRegex(@"Image Width: (\d+) Image Length: (\d+)")]
    private static partial Regex Size();
}

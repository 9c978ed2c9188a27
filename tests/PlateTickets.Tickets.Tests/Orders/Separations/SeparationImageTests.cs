using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Orders.Separations;

namespace PlateTickets.Tickets.Tests.Orders.Separations;

/// <summary>Coverage, box and preview of every kind of file, against the pixels that ImageMagick (with libtiff) sees in the same file.</summary>
public sealed class SeparationImageTests(ScreenedFiles files) : IClassFixture<ScreenedFiles>
{
    public static TheoryData<string, string> Kinds()
    {
        var kinds = new TheoryData<string, string>();
        foreach (var compression in new[] { "none", "packbits", "lzw", "zip", "g3", "g3:2d", "g3:1d:fill", "g3:2d:fill", "g4" })
        {
            foreach (var shape in new[] { "-r 7", "-r 100000", "-t -w 208 -l 112", "-f lsb2msb -r 33", "-f lsb2msb -t -w 64 -l 64", "-8 -B" })
            {
                kinds.Add(compression, shape);
            }
        }

        return kinds;
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void EveryCompressionAndShape(string compression, string shape)
    {
        var file = files.Copy(files.Small, $"kind-{Guid.NewGuid():N}", ["-c", compression, .. shape.Split(' ')]);
        Same(file, 1, files.SmallSeen);
    }

    [Theory]
    [InlineData("none", "-r 50")]
    [InlineData("none", "-t -w 1040 -l 208")]
    [InlineData("lzw", "-r 100000")]
    [InlineData("zip", "-f lsb2msb")]
    [InlineData("packbits", "-r 64")]
    [InlineData("g3:2d", "-r 64")]
    [InlineData("g4", "-r 100000")]
    [InlineData("g4", "-t -w 1040 -l 208")]
    public void LargeImages_CountedByBytesAndOnTwoThreads(string compression, string shape)
    {
        var file = files.Copy(files.Large, $"large-{Guid.NewGuid():N}", ["-c", compression, .. shape.Split(' ')]);
        Same(file, 16, files.LargeSeen);
    }

    [Theory]
    [InlineData("tiffcrle", "CCITT 1D")]
    [InlineData("tiffg3", "CCITT G3")]
    [InlineData("tiffg32d", "CCITT G3")]
    [InlineData("tifflzw", "LZW")]
    [InlineData("tiffpack", "PackBits")]
    public void GhostscriptsOwnWriters(string device, string compression)
    {
        foreach (var order in new[] { "-dFillOrder=1", "-dFillOrder=2" })
        {
            var file = files.Page($"{device}{order[^1]}", device, 1500, order);
            Assert.Equal(compression, Read(file).Compression);
            Same(file, 3, SeenByImageMagick.Read(file));
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    public void EveryOrientation_IsShownUpright(int orientation)
    {
        (string, int)[] all = [(files.Small, 1), (files.Middle, 3), (files.Large, 16)];
        foreach (var (from, cell) in orientation == 6 ? all : all[..2])
        {
            var file = ScreenedFiles.Tag(files.Copy(from, $"o{orientation}-{cell}", "-c", "lzw"), "274", $"{orientation}");
            // TIFF 6.0, Orientation: in 2, 3, 6 and 7 stored lines or columns begin on the right, in 3, 4, 7 and 8 at the bottom.
            Same(file, cell, SeenByImageMagick.Read(file), orientation is 2 or 3 or 6 or 7, orientation is 3 or 4 or 7 or 8);
        }
    }

    [Theory]
    [InlineData("g4")]
    [InlineData("none")]
    [InlineData("lzw")]
    public void BothSenses_OfEveryKindOfDecoder(string compression)
    {
        foreach (var (from, cell) in new[] { (files.Middle, 3), (files.Large, 16) })
        {
            var plain = Read(files.Copy(from, $"plain-{compression}-{cell}", "-c", compression));
            // The same bits, said to mean the opposite.
            var turned = ScreenedFiles.Tag(files.Copy(from, $"turned-{compression}-{cell}", "-c", compression), "262", "1");
            if (cell == 3)
            {
                Same(turned, cell, SeenByImageMagick.Read(turned));
            }

            Assert.Equal(1, plain.Image!.Coverage + Read(turned).Image!.Coverage, 1e-12);

            // Other bits and the other sense: the same image.
            var negative = Path.Combine(files.Folder, $"negative-{compression}-{cell}.tif");
            Tool.Run("imagemagick", "convert", from, "-define", "quantum:polarity=min-is-black", "-compress", compression == "g4" ? "Group4" : compression, negative);
            Assert.True(Read(negative).InkIsZero);
            Assert.Equal(plain.Image.Coverage, Read(negative).Image!.Coverage);
            Assert.Equal(plain.Image.ImageHash, Read(negative).Image!.ImageHash);
        }
    }

    [Fact]
    public void BlankAndSolid_HaveNoBoxAndTheWholeBox()
    {
        foreach (var compression in new[] { "g4", "lzw", "none" })
        {
            var blank = Read(Made($"blank-{compression}", "white", compression));
            Assert.Equal(0, blank.Image!.Coverage);
            Assert.Null(blank.Image.Box);
            var solid = Read(Made($"solid-{compression}", "black", compression));
            Assert.Equal(1, solid.Image!.Coverage);
            Assert.Equal((0, 0), (solid.Image.Box!.LeftMm, solid.Image.Box.TopMm));
            Assert.Equal((solid.WidthMm, solid.HeightMm), (solid.Image.Box.WidthMm, solid.Image.Box.HeightMm));
        }
    }

    [Fact]
    public void SameImage_HasTheSameHash_HoweverItIsStored_AndAnotherImageAnother()
    {
        var hashes = new[] { "none", "lzw", "g4", "g3:2d" }.Select(c => Read(files.Copy(files.Middle, $"hash-{c[..2]}", "-c", c)).Image!.ImageHash).ToList();
        Assert.Single(hashes.Distinct());
        Assert.NotEqual(hashes[0], Read(files.Small).Image!.ImageHash);
    }

    [Fact]
    public void Progress_RisesToTheEnd_AndReadingCanBeCancelled()
    {
        var told = new List<double>();
        using var stream = File.OpenRead(files.Large);
        SeparationReader.Read(stream, "large.tif", new Told(share =>
        {
            lock (told)
            {
                told.Add(share);
            }
        }));
        Assert.InRange(told.Count, 10, 200);
        Assert.Equal(1, told.Max());

        using var stop = new CancellationTokenSource();
        Assert.ThrowsAny<OperationCanceledException>(() => SeparationReader.Read(stream, "large.tif", new Told(_ => stop.Cancel()), stop.Token));
    }

    private static void Same(string file, int cell, SeenByImageMagick seen, bool fromRight = false, bool fromBottom = false)
    {
        var read = Read(file);
        Assert.Equal((seen.Width, seen.Height), (read.WidthPixels, read.HeightPixels));
        Assert.Equal(seen.Coverage, read.Image!.Coverage, 1e-12);
        var box = read.Image.Box!;
        Assert.Equal(seen.Box.Left, box.LeftMm * read.XPixelsPerMm, 1e-6);
        Assert.Equal(seen.Box.Top, box.TopMm * read.YPixelsPerMm, 1e-6);
        Assert.Equal(seen.Box.Right, (box.LeftMm + box.WidthMm) * read.XPixelsPerMm, 1e-6);
        Assert.Equal(seen.Box.Bottom, (box.TopMm + box.HeightMm) * read.YPixelsPerMm, 1e-6);
        var png = file + ".png";
        File.WriteAllBytes(png, read.Image.PreviewPng.ToArray());
        var preview = SeenByImageMagick.Read(png);
        Assert.Equal((((seen.Width - 1) / cell) + 1, ((seen.Height - 1) / cell) + 1), (preview.Width, preview.Height));
        Assert.Equal(seen.Shrunk(cell, fromRight, fromBottom), preview.Grey);
    }

    private string Made(string name, string colour, string compression)
    {
        var group4 = Path.Combine(files.Folder, name + ".g4");
        Tool.Run("imagemagick", "convert", "-size", "1237x333", $"xc:{colour}", "-monochrome", "-density", "600", "-units", "PixelsPerInch", "-compress", "Group4", "tiff:" + group4);
        return files.Copy(group4, name, "-c", compression);
    }

    private static SeparationFacts Read(string file)
    {
        using var stream = File.OpenRead(file);
        return SeparationReader.Read(stream, Path.GetFileName(file));
    }

    private sealed class Told(Action<double> tell) : IProgress<double>
    {
        public void Report(double value) => tell(value);
    }
}

using PlateTickets.Tickets.Orders.Separations.Pixels;

namespace PlateTickets.Tickets.Orders.Separations;

/// <summary>Reads a one-bit TIFF separation (TIFF 6.0 and BigTIFF) in one pass: its facts, coverage, image box and preview.</summary>
public static class SeparationReader
{
    private const int MostImages = 64;

    // 10 m at 5,080 ppi; and as many pixels as 12 GB of bits hold. More is a mistake, and would take minutes to find out.
    private const int LongestSide = 2_000_000;
    private const long MostPixels = 100_000_000_000;

    private static readonly IReadOnlyDictionary<long, string> Compressions = new Dictionary<long, string>
    {
        [1] = "none",
        [2] = "CCITT 1D",
        [3] = "CCITT G3",
        [4] = "CCITT G4",
        [5] = "LZW",
        [8] = "Deflate",
        [32946] = "Deflate",
        [32773] = "PackBits",
    };

    /// <param name="seekable">The whole file; read by small random reads.</param>
    /// <param name="fileName">For the colour's name and for the sentences.</param>
    /// <param name="progress">Told how much of the image is read, 0 to 1.</param>
    /// <param name="cancel">Cancels.</param>
    /// <exception cref="SeparationException">The file is no separation.</exception>
    public static SeparationFacts Read(Stream seekable, string fileName, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        var tiff = TiffFile.Open(seekable, fileName) ?? throw OtherFormats.Refuse(seekable, fileName);
        var image = OnlyImage(tiff, fileName);
        OneBit(image, fileName);
        var compression = Compression(image, fileName);
        var width = Side(image, 256, "width", tiff);
        var height = Side(image, 257, "height", tiff);
        NotTooLarge(width, height, fileName);
        StripChecks.Check(tiff, image, width, height, compression, fileName);
        var (x, y) = Resolution(image, fileName);
        var orientation = (int)image.Number(274, 1);
        orientation = orientation is >= 1 and <= 8 ? orientation : 1;
        var inkIsZero = image.Number(262, 0) == 1;
        var shape = ImageShape.Of(width, height, orientation, inkIsZero, x, y);
        var counter = new ImageScan(tiff, image, shape, fileName, progress, cancel).Run(compression);
        var seen = PreviewMaker.Make(counter, shape, x, y);
        if (orientation >= 5)
        {
            (width, height) = (height, width);
            (x, y) = (y, x);
        }

        var (colour, from) = ColourNames.Find(fileName, image.Text(285), image.Text(333), image.Text(270));
        var (tagColour, _) = ColourNames.FromTags(image.Text(285), image.Text(333), image.Text(270));
        return new SeparationFacts(
            fileName, width, height, x, y, width / x, height / y, colour, from, Compressions[compression], inkIsZero, tagColour, seen);
    }

    private static TiffDirectory OnlyImage(TiffFile tiff, string fileName)
    {
        var seen = new HashSet<long>();
        TiffDirectory? image = null;
        var images = 0;
        for (var offset = tiff.FirstDirectory; offset != 0;)
        {
            if (!seen.Add(offset))
            {
                throw tiff.Damaged("its directories point at each other in a circle");
            }

            if (seen.Count > MostImages)
            {
                throw new SeparationException(SeparationFault.SeveralImages, $"{fileName} holds more than {MostImages} images: a separation is one image. Save each colour as a file of its own.");
            }

            var directory = tiff.Directory(offset, out var next);
            // Bit 0 of NewSubfileType marks a smaller copy, such as a thumbnail.
            if ((directory.Number(254, 0) & 1) == 0)
            {
                images++;
                image ??= directory;
            }

            offset = next;
        }

        return images == 1
            ? image!
            : throw new SeparationException(
                images == 0 ? SeparationFault.Damaged : SeparationFault.SeveralImages,
                images == 0
                    ? $"{fileName} holds no full image. Write the file again."
                    : $"{fileName} holds {images} images: a separation is one image. Save each colour as a file of its own.");
    }

    private static void OneBit(TiffDirectory image, string fileName)
    {
        var bits = image.Number(258, 1);
        var channels = image.Number(277, 1);
        if (bits != 1 || channels != 1)
        {
            var what = channels == 1 ? $"{bits} bits a pixel" : $"{channels} channels of {bits} {(bits == 1 ? "bit" : "bits")}";
            throw new SeparationException(
                SeparationFault.NotOneBit,
                $"{fileName} is not a one-bit image: it has {what}. A separation is screened to one bit before it comes here; send the one-bit file.");
        }

        if (image.Number(262, 0) is not (0 or 1 or 5))
        {
            throw new SeparationException(
                SeparationFault.NotOneBit, $"{fileName} is not a black and white image but a palette or colour image. Send the one-bit separation.");
        }
    }

    private static long Compression(TiffDirectory image, string fileName)
    {
        var compression = image.Number(259, 1);
        if (Compressions.ContainsKey(compression))
        {
            return image.Number(317, 1) == 1
                ? compression
                : throw new SeparationException(SeparationFault.Unsupported, $"{fileName} is written with a predictor, which has no meaning for one bit. Save it without.");
        }

        var what = compression is >= 32895 and <= 32898 ? "TIFF/IT" : $"compression {compression}";
        throw new SeparationException(
            SeparationFault.Unsupported, $"{fileName} is written with {what}, which is not read here. Save it as TIFF with CCITT G4, LZW, Deflate, PackBits or no compression.");
    }

    private static void NotTooLarge(int width, int height, string fileName)
    {
        if (width > LongestSide || height > LongestSide || (long)width * height > MostPixels)
        {
            throw new SeparationException(
                SeparationFault.TooLarge, $"{fileName} claims {width} × {height} pixels: more than any plate has. Write it again at its true size and resolution.");
        }
    }

    private static int Side(TiffDirectory image, int tag, string what, TiffFile tiff)
    {
        var pixels = image.Number(tag, 0);
        return pixels is > 0 and <= int.MaxValue ? (int)pixels : throw tiff.Damaged($"its {what} is {(pixels == 0 ? "missing" : $"given as {pixels} pixels")}");
    }

    private static (double X, double Y) Resolution(TiffDirectory image, string fileName)
    {
        var perUnit = image.Number(296, 2) switch { 2 => 25.4, 3 => 10.0, _ => 0.0 };
        var x = image.Real(282) ?? 0;
        var y = image.Real(283) ?? x;
        // From 1 ppi to one pixel each 0.1 micrometre: outside of that the tag is nonsense.
        if (perUnit == 0 || x / perUnit is not (> 0.039 and < 10_000) || y / perUnit is not (> 0.039 and < 10_000))
        {
            throw new SeparationException(
                SeparationFault.NoResolution, $"{fileName} has no resolution, so its size in mm is unknown. Save it with its resolution in pixels per inch or per cm.");
        }

        return (x / perUnit, y / perUnit);
    }
}

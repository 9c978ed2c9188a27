using QRCoder;
using ZXing;
using ZXing.OneD;

namespace PlateTickets.Travelers.Codes;

/// <summary>The two machine-readable codes of a sheet's number, as modules to draw: true is dark. Quiet zones are the drawer's work.</summary>
public static class SheetCodes
{
    /// <summary>QR Code (ISO/IEC 18004), level Q, without its quiet zone of 4 modules; rows, then columns.</summary>
    public static bool[,] Qr(string text)
    {
        using var generator = new QRCodeGenerator();
        using var data = generator.CreateQrCode(text, QRCodeGenerator.ECCLevel.Q);
        // QRCoder adds the quiet zone to its matrix.
        const int quiet = 4;
        var size = data.ModuleMatrix.Count - (2 * quiet);
        var modules = new bool[size, size];
        for (var row = 0; row < size; row++)
        {
            for (var column = 0; column < size; column++)
            {
                modules[row, column] = data.ModuleMatrix[row + quiet][column + quiet];
            }
        }

        return modules;
    }

    /// <summary>Code 128 (ISO/IEC 15417), without its quiet zones of 10 modules.</summary>
    public static bool[] Code128(string text)
    {
        var modules = new Code128Writer().encode(text);
        return modules is { Length: > 0 } ? modules : throw new WriterException($"“{text}” cannot be written as Code 128.");
    }
}

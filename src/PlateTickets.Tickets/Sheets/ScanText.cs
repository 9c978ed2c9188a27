namespace PlateTickets.Tickets.Sheets;

/// <summary>Cleans what a keyboard-wedge scanner types before it is read as a number.</summary>
public static class ScanText
{
    private const int LongestKept = 40;

    /// <summary>
    /// Strips an ISO/IEC 15424 symbology identifier (]C0, ]C1, ]Q1, ]d1), white space, hyphens and control
    /// characters, and makes capitals (Caps Lock turns a scanner's letters round). Keeps 40 characters at most.
    /// </summary>
    public static string Clean(string? raw)
    {
        if (string.IsNullOrWhiteSpace(raw))
        {
            return "";
        }

        var text = raw.AsSpan().Trim();
        if (text.Length > 3 && text[0] == ']' && char.IsAsciiLetter(text[1]) && char.IsAsciiDigit(text[2]))
        {
            text = text[3..];
        }

        // The QR code of a traveler may hold the address of the sheet's page. Whatever a scanner makes of its colons and slashes,
        // the number stands at its end.
        if (text.Length > TrackingNumber.Length && text.StartsWith("http", StringComparison.OrdinalIgnoreCase))
        {
            text = text[^TrackingNumber.Length..];
        }

        Span<char> kept = stackalloc char[LongestKept];
        var length = 0;
        foreach (var c in text)
        {
            if (length == LongestKept)
            {
                break;
            }

            if (!char.IsWhiteSpace(c) && !char.IsControl(c) && c != '-')
            {
                kept[length++] = char.ToUpperInvariant(c);
            }
        }

        return new string(kept[..length]);
    }
}

namespace PlateTickets.Tickets.Sheets;

/// <summary>What a number stands for; the letter is its first character.</summary>
public enum NumberKind
{
    Sheet = 'S',
    Ticket = 'T',
    Badge = 'B',

    /// <summary>A drawer of a dryer; its number follows from the machine and the drawer, see <see cref="Stations.Drawers"/>.</summary>
    Drawer = 'D',
}

/// <summary>
/// The number of a sheet, a ticket or a badge: a letter for the kind, seven characters and an ISO 7064 MOD 37-2 check
/// character. The alphabet leaves out I, L, O and U (misread) and Y and Z (swapped by a scanner set to another
/// keyboard layout); a number whose check would be one of those or * is never given out.
/// </summary>
public static class TrackingNumber
{
    /// <summary>The 30 characters in use.</summary>
    public const string Alphabet = "0123456789ABCDEFGHJKMNPQRSTVWX";

    /// <summary>Characters of a whole number, check character included.</summary>
    public const int Length = 9;

    /// <summary>How many numbers a kind has: 30^7.</summary>
    public const long Capacity = 21_870_000_000;

    // Neighbouring sheets must not look alike on a trolley: the sequence is spread over the whole range by a
    // multiplication with a factor that shares no divisor with 30, which keeps every number unique.
    private const long Spread = 15_485_863_217;
    private const long Offset = 7_778_742_049;

    /// <summary>The number of a place in the sequence, or null when that place is skipped for its check character.</summary>
    /// <param name="kind">Sheet, ticket, badge or drawer.</param>
    /// <param name="sequence">0 up to, not including, <see cref="Capacity"/>.</param>
    public static string? FromSequence(NumberKind kind, long sequence)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(sequence);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(sequence, Capacity);
        var spread = (long)(((Int128)sequence * Spread + Offset) % Capacity);
        Span<char> text = stackalloc char[Length];
        text[0] = (char)kind;
        for (var i = 7; i >= 1; i--)
        {
            text[i] = Alphabet[(int)(spread % 30)];
            spread /= 30;
        }

        var check = Iso7064.Mod37Radix2(text[..8]);
        if (!Alphabet.Contains(check, StringComparison.Ordinal))
        {
            return null;
        }

        text[8] = check;
        return new string(text);
    }

    /// <summary>The same number in groups for people: "S7K3 M9Q4 6".</summary>
    public static string ForPeople(string number) =>
        number.Length == Length ? $"{number[..4]} {number[4..8]} {number[8..]}" : number;

    /// <summary>Reads what a scanner or a person typed; see <see cref="ScanText"/> for what is forgiven.</summary>
    public static ReadNumber Read(string? raw)
    {
        var text = ScanText.Clean(raw);
        if (text.Length == 0)
        {
            return new ReadNumber(null, null, NumberFault.Empty, text);
        }

        if (text.Length != Length || text.Any(c => !Alphabet.Contains(c, StringComparison.Ordinal)))
        {
            return new ReadNumber(null, null, NumberFault.NotANumber, text);
        }

        if (Iso7064.Mod37Radix2(text.AsSpan(0, 8)) != text[8])
        {
            return new ReadNumber(null, null, NumberFault.Misread, text);
        }

        return text[0] switch
        {
            'S' => new ReadNumber(text, NumberKind.Sheet, NumberFault.None, text),
            'T' => new ReadNumber(text, NumberKind.Ticket, NumberFault.None, text),
            'B' => new ReadNumber(text, NumberKind.Badge, NumberFault.None, text),
            'D' => new ReadNumber(text, NumberKind.Drawer, NumberFault.None, text),
            _ => new ReadNumber(null, null, NumberFault.NotANumber, text),
        };
    }
}

/// <summary>Why a reading is not a number.</summary>
public enum NumberFault
{
    None,
    Empty,

    /// <summary>Wrong length, a character that is never used, or no kind that we know.</summary>
    NotANumber,

    /// <summary>The check character does not fit: one or more characters were misread or mistyped.</summary>
    Misread,
}

/// <summary>A reading: the number and its kind, or the fault; <paramref name="Cleaned"/> is what was left of the raw text.</summary>
public sealed record ReadNumber(string? Number, NumberKind? Kind, NumberFault Fault, string Cleaned);

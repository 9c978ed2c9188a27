namespace PlateTickets.Tickets.Sheets;

/// <summary>Check characters after ISO/IEC 7064.</summary>
public static class Iso7064
{
    private const string Characters = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*";

    /// <summary>
    /// The MOD 37-2 check character of a string of 0-9 and A-Z (pure system, radix 2): one of 0-9, A-Z and *.
    /// It catches every single substitution, every swap of neighbours and every jump swap.
    /// </summary>
    /// <exception cref="ArgumentException">The text is empty or holds another character.</exception>
    public static char Mod37Radix2(ReadOnlySpan<char> text)
    {
        if (text.IsEmpty)
        {
            throw new ArgumentException("There is nothing to compute a check character from.", nameof(text));
        }

        var rest = 0;
        foreach (var c in text)
        {
            var value = Characters.IndexOf(c, StringComparison.Ordinal);
            if (value is < 0 or 36)
            {
                throw new ArgumentException($"'{c}' is not one of 0-9 and A-Z.", nameof(text));
            }

            rest = (rest + value) * 2 % 37;
        }

        return Characters[(38 - rest) % 37];
    }
}

using System.Globalization;
using System.Text;

namespace PlateTickets.Tickets.Orders.Search;

/// <summary>The words of a text as tickets are found by them: letters and digits belong together, everything else parts them; small, without accents.</summary>
internal static class TicketWords
{
    public static IEnumerable<string> Of(string text)
    {
        var word = new StringBuilder();
        foreach (var rune in text.Normalize(NormalizationForm.FormD).EnumerateRunes())
        {
            if (Rune.IsLetterOrDigit(rune))
            {
                word.Append(Rune.ToLowerInvariant(rune));
            }
            else if (Rune.GetUnicodeCategory(rune) is UnicodeCategory.NonSpacingMark or UnicodeCategory.SpacingCombiningMark)
            {
                continue;
            }
            else if (word.Length > 0)
            {
                yield return word.ToString();
                word.Clear();
            }
        }

        if (word.Length > 0)
        {
            yield return word.ToString();
        }
    }
}

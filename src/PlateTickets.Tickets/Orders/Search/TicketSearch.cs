using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Orders.Search;

/// <summary>What somebody looks for.</summary>
/// <param name="Text">Words, or beginnings of words, that all must be there; or a number. Empty for any.</param>
/// <param name="DueFrom">First due day, in the site's time zone; null for the ten years before the last.</param>
/// <param name="DueTo">Last due day, included; null for the ten years after the first.</param>
public sealed record TicketAsk(string Text, DateOnly? DueFrom = null, DateOnly? DueTo = null)
{
    public bool IsEmpty => string.IsNullOrWhiteSpace(Text) && DueFrom is null && DueTo is null;
}

/// <summary>
/// Finds tickets among all there ever were, newest first. The full-text index is walked from its newest end, so an answer costs what it shows and not
/// what there is.
/// </summary>
public sealed class TicketSearch(IDbContextFactory<PlateRoomDb> databases)
{
    /// <summary>Longest text, in characters; the rest is left out.</summary>
    public const int LongestText = 100;

    /// <summary>Widest span of due days, in years.</summary>
    public const int WidestYears = 10;

    private const int MostWords = 8;

    /// <summary>Ids of tickets, newest first.</summary>
    /// <param name="ask">What for.</param>
    /// <param name="before">Only tickets older than this one; null for the newest.</param>
    /// <param name="most">At most so many.</param>
    /// <param name="cancel">Cancels.</param>
    /// <exception cref="PlateRoomException">The days are the wrong way round or too far apart.</exception>
    public async Task<List<int>> FindAsync(TicketAsk ask, int? before, int most, CancellationToken cancel = default)
    {
        if (Query(ask) is not { } query)
        {
            return [];
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Database.SqlQuery<int>(
            $"""SELECT rowid AS "Value" FROM "TicketWords" WHERE "TicketWords" MATCH {query} AND rowid < {before ?? int.MaxValue} ORDER BY rowid DESC LIMIT {most}""")
            .ToListAsync(cancel);
    }

    /// <summary>The question as the full-text index takes it; null when it asks for nothing that could be there.</summary>
    internal static string? Query(TicketAsk ask)
    {
        var text = ask.Text.Trim() is { Length: > LongestText } longer ? longer[..LongestText] : ask.Text.Trim();
        var parts = new List<string>();
        if (text.Length > 0)
        {
            var words = Words(text);
            if (words.Count == 0)
            {
                return null;
            }

            var all = string.Join(" AND ", words.Select(w => $"\"{w}\"*"));
            // People write numbers in groups of four.
            var number = ScanText.Clean(text);
            var grouped = words.Count > 1 && number.Length is >= 4 and <= TrackingNumber.Length && number[0] is (char)NumberKind.Ticket or (char)NumberKind.Sheet
                && number.All(c => TrackingNumber.Alphabet.Contains(c, StringComparison.Ordinal));
            parts.Add(grouped ? $"Text : (({all}) OR \"{number}\"*)" : $"Text : ({all})");
        }

        if (ask.DueFrom is not null || ask.DueTo is not null)
        {
            parts.Add($"Days : ({string.Join(" OR ", Days(ask.DueFrom, ask.DueTo).Select(d => $"\"{d}\""))})");
        }

        return parts.Count == 0 ? null : string.Join(" AND ", parts);
    }

    // As the index's own tokenizer does: letters and digits belong together, everything else parts them.
    private static List<string> Words(string text)
    {
        var words = new List<string>();
        var word = new StringBuilder();
        foreach (var rune in text.EnumerateRunes())
        {
            if (Rune.IsLetterOrDigit(rune) || Rune.GetUnicodeCategory(rune) is UnicodeCategory.NonSpacingMark or UnicodeCategory.SpacingCombiningMark)
            {
                word.Append(rune);
            }
            else if (word.Length > 0)
            {
                words.Add(word.ToString());
                word.Clear();
            }
        }

        if (word.Length > 0)
        {
            words.Add(word.ToString());
        }

        return [.. words.Take(MostWords)];
    }

    // Whole months by one word, the days at both ends one by one.
    private static IEnumerable<string> Days(DateOnly? from, DateOnly? to)
    {
        var last = to ?? from!.Value.AddYears(WidestYears);
        var first = from ?? last.AddYears(-WidestYears);
        if (first > last)
        {
            throw new PlateRoomException("The first due day is after the last. Change one of them.");
        }

        if (first.AddYears(WidestYears) < last)
        {
            throw new PlateRoomException($"Choose due days at most {WidestYears} years apart.");
        }

        for (var day = first; day <= last;)
        {
            var month = day.AddMonths(1);
            if (day.Day == 1 && month.AddDays(-1) <= last)
            {
                yield return day.ToString("yyyyMM", CultureInfo.InvariantCulture);
                day = month;
            }
            else
            {
                yield return day.ToString("yyyyMMdd", CultureInfo.InvariantCulture);
                day = day.AddDays(1);
            }
        }
    }
}

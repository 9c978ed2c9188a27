using System.Globalization;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Database;
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
        if (db.IsPostgreSql())
        {
            return await db.Database.SqlQuery<int>(
                $"""SELECT "TicketId" AS "Value" FROM "TicketTexts" WHERE "Words" @@ to_tsquery('simple', {query.PostgreSql}) AND "TicketId" < {before ?? int.MaxValue} ORDER BY "TicketId" DESC LIMIT {most}""")
                .ToListAsync(cancel);
        }

        return await db.Database.SqlQuery<int>(
            $"""SELECT rowid AS "Value" FROM "TicketWords" WHERE "TicketWords" MATCH {query.Sqlite} AND rowid < {before ?? int.MaxValue} ORDER BY rowid DESC LIMIT {most}""")
            .ToListAsync(cancel);
    }

    /// <summary>The question as the full-text indexes take it, FTS5 and tsquery; null when it asks for nothing that could be there.</summary>
    internal static (string Sqlite, string PostgreSql)? Query(TicketAsk ask)
    {
        var text = ask.Text.Trim() is { Length: > LongestText } longer ? longer[..LongestText] : ask.Text.Trim();
        var (sqlite, postgre) = (new List<string>(), new List<string>());
        if (text.Length > 0)
        {
            var words = TicketWords.Of(text).Take(MostWords).ToList();
            if (words.Count == 0)
            {
                return null;
            }

            var all = string.Join(" AND ", words.Select(w => $"\"{w}\"*"));
            var each = string.Join(" & ", words.Select(w => $"{w}:*A"));
            // People write numbers in groups of four.
            var number = ScanText.Clean(text);
            var grouped = words.Count > 1 && number.Length is >= 4 and <= TrackingNumber.Length && number[0] is (char)NumberKind.Ticket or (char)NumberKind.Sheet
                && number.All(c => TrackingNumber.Alphabet.Contains(c, StringComparison.Ordinal));
            sqlite.Add(grouped ? $"Text : (({all}) OR \"{number}\"*)" : $"Text : ({all})");
            postgre.Add(grouped ? $"(({each}) | {number.ToLowerInvariant()}:*A)" : $"({each})");
        }

        if (ask.DueFrom is not null || ask.DueTo is not null)
        {
            var days = Days(ask.DueFrom, ask.DueTo).ToList();
            sqlite.Add($"Days : ({string.Join(" OR ", days.Select(d => $"\"{d}\""))})");
            postgre.Add($"({string.Join(" | ", days.Select(d => $"{d}:D"))})");
        }

        return sqlite.Count == 0 ? null : (string.Join(" AND ", sqlite), string.Join(" & ", postgre));
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

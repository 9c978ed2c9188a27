using System.Buffers;
using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace PlateTickets.Tickets.Database;

/// <summary>
/// PostgreSQL keeps no zero character and no half of a surrogate pair (manual, 8.3): where a text has one, U+FFFD stands in its place. SQLite takes
/// both, and a room must take the same on either.
/// </summary>
public sealed class PostgreSqlText : DbCommandInterceptor
{
    private const char Replacement = '\uFFFD';
    private static readonly SearchValues<char> Suspects = SearchValues.Create(['\0', .. Enumerable.Range(0xD800, 0x800).Select(c => (char)c)]);

    public static string Clean(string text)
    {
        var first = text.AsSpan().IndexOfAny(Suspects);
        if (first < 0)
        {
            return text;
        }

        return string.Create(text.Length, text, (clean, from) =>
        {
            for (var i = 0; i < from.Length; i++)
            {
                if (char.IsHighSurrogate(from[i]) && i + 1 < from.Length && char.IsLowSurrogate(from[i + 1]))
                {
                    (clean[i], clean[i + 1]) = (from[i], from[i + 1]);
                    i++;
                    continue;
                }

                clean[i] = from[i] == '\0' || char.IsSurrogate(from[i]) ? Replacement : from[i];
            }
        });
    }

    public override InterceptionResult<DbDataReader> ReaderExecuting(DbCommand command, CommandEventData eventData, InterceptionResult<DbDataReader> result)
    {
        Clean(command);
        return result;
    }

    public override InterceptionResult<int> NonQueryExecuting(DbCommand command, CommandEventData eventData, InterceptionResult<int> result)
    {
        Clean(command);
        return result;
    }

    public override InterceptionResult<object> ScalarExecuting(DbCommand command, CommandEventData eventData, InterceptionResult<object> result)
    {
        Clean(command);
        return result;
    }

    public override ValueTask<InterceptionResult<DbDataReader>> ReaderExecutingAsync(
        DbCommand command, CommandEventData eventData, InterceptionResult<DbDataReader> result, CancellationToken cancellationToken = default)
    {
        Clean(command);
        return ValueTask.FromResult(result);
    }

    public override ValueTask<InterceptionResult<int>> NonQueryExecutingAsync(
        DbCommand command, CommandEventData eventData, InterceptionResult<int> result, CancellationToken cancellationToken = default)
    {
        Clean(command);
        return ValueTask.FromResult(result);
    }

    public override ValueTask<InterceptionResult<object>> ScalarExecutingAsync(
        DbCommand command, CommandEventData eventData, InterceptionResult<object> result, CancellationToken cancellationToken = default)
    {
        Clean(command);
        return ValueTask.FromResult(result);
    }

    private static void Clean(DbCommand command)
    {
        foreach (DbParameter parameter in command.Parameters)
        {
            parameter.Value = parameter.Value switch
            {
                string text => Clean(text),
                string[] texts => Array.ConvertAll(texts, Clean),
                IReadOnlyList<string> texts => texts.Select(Clean).ToList(),
                var other => other,
            };
        }
    }
}

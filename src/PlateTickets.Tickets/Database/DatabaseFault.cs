using System.Data.Common;
using Microsoft.Data.Sqlite;

namespace PlateTickets.Tickets.Database;

/// <summary>Something is wrong with the database itself, and not with what was asked of it.</summary>
/// <param name="Code">For programs.</param>
/// <param name="Sentence">For people: what is wrong and what to do.</param>
public sealed record DatabaseFault(string Code, string Sentence)
{
    /// <summary>Nothing can be written until somebody makes room.</summary>
    public static readonly DatabaseFault DiskFull = new(
        "disk-full", "The disk of the database is full, so nothing can be saved. Make room on that disk: the program then goes on by itself.");

    /// <summary>The disk refuses for another reason.</summary>
    public static readonly DatabaseFault DiskRefuses = new(
        "disk-refuses", "The disk of the database cannot be read or written, so nothing can be saved. Look at the server's log and at that disk.");

    /// <summary>A matter of time: stopped, not to be reached, too slow, or held by another writer.</summary>
    public static readonly DatabaseFault Away = new(
        "database-away", "The database does not answer at the moment, so nothing can be saved. Try again in a moment: the program goes on by itself as soon as it is back.");

    // Of SQLite (documentation, "Result and Error Codes").
    private const int Busy = 5;
    private const int Locked = 6;
    private const int ReadOnly = 8;
    private const int InputOutput = 10;
    private const int Full = 13;
    private const int CannotOpen = 14;

    // Of PostgreSQL (manual, appendix A).
    private const string ServerDiskFull = "53100";

    /// <summary>Which of them made this happen; null for none.</summary>
    public static DatabaseFault? Of(Exception? exception) => exception switch
    {
        null => null,
        SqliteException sqlite => sqlite.SqliteErrorCode switch
        {
            Full => DiskFull,
            ReadOnly or InputOutput or CannotOpen => DiskRefuses,
            Busy or Locked => Away,
            _ => null,
        },
        DbException { SqlState: ServerDiskFull } => DiskFull,
        // Without a state the server said nothing: the line broke or took too long.
        DbException { SqlState: null } or DbException { IsTransient: true } => Away,
        _ => Of(exception.InnerException),
    };
}

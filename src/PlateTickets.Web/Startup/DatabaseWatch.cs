using System.Data.Common;
using System.Diagnostics;
using Microsoft.EntityFrameworkCore.Diagnostics;
using PlateTickets.Tickets.Database;

namespace PlateTickets.Web.Startup;

/// <summary>Notices when the database's disk takes nothing any more, which reading would not show.</summary>
public sealed class DatabaseWatch : IDbCommandInterceptor, IDbTransactionInterceptor
{
    // The plan is written at least once a minute: as long as the trouble lasts it is noticed again. A node that writes nothing forgets it.
    private static readonly TimeSpan Remembered = TimeSpan.FromSeconds(90);

    private volatile Noticed? _last;

    /// <summary>What was wrong when something was written last; null once something was written since, or after a while.</summary>
    public DatabaseFault? Trouble => _last is { } last && Stopwatch.GetElapsedTime(last.At) < Remembered ? last.Fault : null;

    public void CommandFailed(DbCommand command, CommandErrorEventData eventData) => Notice(eventData.Exception);

    public Task CommandFailedAsync(DbCommand command, CommandErrorEventData eventData, CancellationToken cancellationToken = default)
    {
        Notice(eventData.Exception);
        return Task.CompletedTask;
    }

    public void TransactionFailed(DbTransaction transaction, TransactionErrorEventData eventData) => Notice(eventData.Exception);

    public Task TransactionFailedAsync(DbTransaction transaction, TransactionErrorEventData eventData, CancellationToken cancellationToken = default)
    {
        Notice(eventData.Exception);
        return Task.CompletedTask;
    }

    public void TransactionCommitted(DbTransaction transaction, TransactionEndEventData eventData) => _last = null;

    public Task TransactionCommittedAsync(DbTransaction transaction, TransactionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        _last = null;
        return Task.CompletedTask;
    }

    private void Notice(Exception exception)
    {
        var fault = DatabaseFault.Of(exception);
        if (fault == DatabaseFault.DiskFull || fault == DatabaseFault.DiskRefuses)
        {
            _last = new Noticed(fault, Stopwatch.GetTimestamp());
        }
    }

    private sealed record Noticed(DatabaseFault Fault, long At);
}

using System.Collections.Concurrent;
using System.Data.Common;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace PlateTickets.Tests.Shared;

/// <summary>Keeps the commands that a room gives to its database, from <see cref="Start"/> on.</summary>
internal sealed class CommandWatch : DbCommandInterceptor
{
    private readonly ConcurrentQueue<(string Text, DbParameter[] Parameters)> _seen = new();
    private volatile bool _on;

    public IReadOnlyCollection<(string Text, DbParameter[] Parameters)> Seen => _seen;

    public void Start() => _on = true;

    public void Stop() => _on = false;

    public override ValueTask<InterceptionResult<DbDataReader>> ReaderExecutingAsync(DbCommand command, CommandEventData eventData, InterceptionResult<DbDataReader> result, CancellationToken cancellationToken = default)
    {
        Keep(command);
        return ValueTask.FromResult(result);
    }

    public override ValueTask<InterceptionResult<int>> NonQueryExecutingAsync(DbCommand command, CommandEventData eventData, InterceptionResult<int> result, CancellationToken cancellationToken = default)
    {
        Keep(command);
        return ValueTask.FromResult(result);
    }

    public override ValueTask<InterceptionResult<object>> ScalarExecutingAsync(DbCommand command, CommandEventData eventData, InterceptionResult<object> result, CancellationToken cancellationToken = default)
    {
        Keep(command);
        return ValueTask.FromResult(result);
    }

    private void Keep(DbCommand command)
    {
        if (_on)
        {
            _seen.Enqueue((command.CommandText, [.. command.Parameters.Cast<DbParameter>().Select(p => p is SqliteParameter ? new SqliteParameter(p.ParameterName, p.Value) : (DbParameter)((ICloneable)p).Clone())]));
        }
    }
}

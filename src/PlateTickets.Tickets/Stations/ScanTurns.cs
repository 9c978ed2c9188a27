using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Stations;

/// <summary>A scan that waits for its turn, and its answer.</summary>
internal sealed class WaitingScan(ScanRequest request, Room room, Equipment equipment, int behindSeconds, CancellationToken cancel)
{
    private readonly TaskCompletionSource<ScanReply> _reply = new(TaskCreationOptions.RunContinuationsAsynchronously);

    public ScanRequest Request => request;

    public Room Room => room;

    public Equipment Equipment => equipment;

    /// <summary>By how many seconds the reader's clock is behind ours.</summary>
    public int BehindSeconds => behindSeconds;

    public ReadNumber Read { get; } = TrackingNumber.Read(request.Code);

    /// <summary>The sheet that was read before it; empty when none was.</summary>
    public string Of { get; } = TrackingNumber.Read(request.Of) is { Kind: NumberKind.Sheet } before ? before.Number! : "";

    /// <summary>The number of the sheet that it is about; null when it can be about none.</summary>
    public string? SheetNumber => Read.Kind == NumberKind.Sheet ? Read.Number
        : Of.Length > 0 && Read.Kind != NumberKind.Ticket && Read.Fault is NumberFault.None or NumberFault.NotANumber ? Of
        : null;

    public Task<ScanReply> Reply => _reply.Task.WaitAsync(cancel);

    /// <summary>Nobody waits for it any more, and it has not been recorded.</summary>
    public bool IsGivenUp => cancel.IsCancellationRequested;

    public void Answer(ScanReply reply) => _reply.TrySetResult(reply);

    public void Fail(Exception e) => _reply.TrySetException(e);
}

/// <summary>
/// The scans that wait for the room's one writer. Whoever writes takes all that have come meanwhile; what fails together is tried again one by one, so that
/// no scan fails for another's sake.
/// </summary>
/// <param name="record">Records what it takes from the function that it is given, which it calls once it may write; nobody waits when that is nothing.</param>
internal sealed class ScanTurns(Func<Func<IReadOnlyList<WaitingScan>>, Task> record)
{
    private const int Together = 32;
    private const int Attempts = 5;

    private readonly Lock _gate = new();
    private readonly Queue<WaitingScan> _queue = [];
    private bool _writing;

    public Task<ScanReply> WaitAsync(WaitingScan scan)
    {
        lock (_gate)
        {
            _queue.Enqueue(scan);
            if (!_writing)
            {
                _writing = true;
                // The turns are nobody's: they must not end up in the trace or the culture of the call that happened to begin them.
                using (ExecutionContext.SuppressFlow())
                {
                    _ = Task.Run(WriteAsync);
                }
            }
        }

        return scan.Reply;
    }

    private async Task WriteAsync()
    {
        do
        {
            await TurnAsync();
        }
        while (IsMore());
    }

    private bool IsMore()
    {
        lock (_gate)
        {
            return _writing = _queue.Count > 0;
        }
    }

    private async Task TurnAsync()
    {
        IReadOnlyList<WaitingScan> taken = [];
        try
        {
            await record(() => taken = Take());
        }
        catch (Exception e)
        {
            if (taken.Count > 0 && DatabaseFault.Of(e) is null)
            {
                await OneByOneAsync(taken);
                return;
            }

            // Nothing can be written at the moment: all that wait are told why at once.
            foreach (var scan in taken.Count > 0 ? taken : Take())
            {
                scan.Fail(e);
            }
        }
    }

    private async Task OneByOneAsync(IReadOnlyList<WaitingScan> scans)
    {
        foreach (var scan in scans)
        {
            for (var attempt = 1; ; attempt++)
            {
                try
                {
                    await record(() => [scan]);
                    break;
                }
                catch (Exception e) when (attempt < Attempts && IsWorthAnother(e))
                {
                    // Another node or a new plan was faster, or the same id came twice at once: look again at what is there now.
                }
                catch (Exception e)
                {
                    scan.Fail(e);
                    break;
                }
            }
        }
    }

    private static bool IsWorthAnother(Exception e) => e is DbUpdateException && DatabaseFault.Of(e) is null;

    /// <summary>The next scans that can be recorded together: each sheet and each scan once, so that each is decided on what the one before it left.</summary>
    private List<WaitingScan> Take()
    {
        lock (_gate)
        {
            var (taken, ids, sheets) = (new List<WaitingScan>(), new HashSet<Guid>(), new HashSet<string>());
            while (taken.Count < Together && _queue.TryPeek(out var scan))
            {
                if (scan.IsGivenUp)
                {
                    _queue.Dequeue();
                    continue;
                }

                if (!ids.Add(scan.Request.Id) || (scan.SheetNumber is { } sheet && !sheets.Add(sheet)))
                {
                    break;
                }

                taken.Add(_queue.Dequeue());
            }

            return taken;
        }
    }
}

namespace PlateTickets.Tickets.Orders.Arrivals;

/// <summary>Tells which files of a folder are complete: their size and time have not changed for a while, and their name is not a temporary one.</summary>
public sealed class DropWatch(string folder, TimeSpan settle, TimeProvider clock)
{
    // More than these wait for the next look: no list grows without end.
    private const int MostSeen = 2000;

    private Dictionary<string, Seen> _seen = [];

    /// <summary>Looks once. A file is complete at the earliest at the second look.</summary>
    public IReadOnlyList<string> Complete()
    {
        var now = clock.GetUtcNow();
        var seen = new Dictionary<string, Seen>();
        var complete = new List<string>();
        foreach (var file in new DirectoryInfo(folder).EnumerateFiles().Where(f => !ArrivalName.IsTemporary(f.Name)).Take(MostSeen))
        {
            var here = new Seen(file.Length, file.LastWriteTimeUtc, now);
            if (_seen.TryGetValue(file.FullName, out var before) && before.Bytes == here.Bytes && before.Written == here.Written)
            {
                here = before;
                if (now - before.Since >= settle)
                {
                    complete.Add(file.FullName);
                }
            }

            seen[file.FullName] = here;
        }

        _seen = seen;
        return complete;
    }

    private readonly record struct Seen(long Bytes, DateTime Written, DateTimeOffset Since);
}

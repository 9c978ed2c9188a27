using PlateTickets.Process;

namespace PlateTickets.Web.Startup.Backups;

/// <summary>A backup in the folder; without manifest it is damaged, and the sentence says how.</summary>
public sealed record KeptBackup(string Folder, BackupManifest? Manifest, BackupChecked? Checked, string? Damage)
{
    public string Name => Path.GetFileName(Folder);

    /// <summary>Complete, and nothing wrong was found when it was last checked.</summary>
    public bool Good => Manifest is not null && Checked?.Whole == true;
}

/// <summary>The backups of a folder, and which of them go.</summary>
public static class BackupShelf
{
    private static readonly TimeSpan Week = TimeSpan.FromDays(7);

    // A Monday: weeks are counted from here, so that the same backup is the first of its week every time.
    private static readonly DateTime FirstMonday = new(2024, 1, 1, 0, 0, 0, DateTimeKind.Utc);

    /// <summary>Newest first; unfinished ones are none.</summary>
    public static IReadOnlyList<KeptBackup> List(string folder) => !Directory.Exists(folder)
        ? []
        : [.. Directory.EnumerateDirectories(folder, BackupMaker.Prefix + "*")
            .Where(d => !d.EndsWith(BackupMaker.Unfinished, StringComparison.Ordinal))
            .OrderDescending(StringComparer.Ordinal)
            .Select(Read)];

    /// <summary>
    /// Those that go: all but the newest <paramref name="keep"/> good ones and the first good one of each of the <paramref name="weeks"/>
    /// weeks before. What is not known to be good counts for nothing, and goes once it is older than the newest good ones that stay.
    /// </summary>
    public static IReadOnlyList<KeptBackup> Surplus(IReadOnlyList<KeptBackup> newestFirst, int keep, int weeks)
    {
        var good = newestFirst.Where(b => b.Good).ToList();
        if (good.Count <= keep)
        {
            return [];
        }

        var weekly = good.Skip(keep).GroupBy(b => (long)((b.Manifest!.MadeUtc - FirstMonday) / Week)).OrderByDescending(g => g.Key).Take(weeks).Select(g => g.Last());
        var stay = good.Take(keep).Concat(weekly).Select(b => b.Folder).ToHashSet();
        return [.. newestFirst.Where(b => !stay.Contains(b.Folder) && string.CompareOrdinal(b.Folder, good[keep - 1].Folder) < 0)];
    }

    /// <summary>Deletes one: first what makes it a backup, so that a rest of it is never taken for one.</summary>
    public static void Delete(KeptBackup backup)
    {
        File.Delete(Path.Combine(backup.Folder, BackupManifest.Name));
        Directory.Delete(backup.Folder, recursive: true);
    }

    private static KeptBackup Read(string folder)
    {
        try
        {
            return new KeptBackup(folder, BackupManifest.Read(folder), BackupChecked.Read(folder), null);
        }
        catch (Exception e) when (e is PlateRoomException or IOException or UnauthorizedAccessException)
        {
            return new KeptBackup(folder, null, null, e.Message);
        }
    }
}

using System.Globalization;
using Microsoft.Data.Sqlite;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts.Audit;

namespace PlateTickets.Web.Startup.Backups;

/// <summary>A backup that was just made.</summary>
public sealed record BackupMade(string Folder, BackupManifest Manifest, BackupChecked Checked, TimeSpan Took);

/// <summary>
/// Makes a backup into a folder of its own while the room is at work. In it: the database, the keys that cookies and protected columns are
/// read with, and the files of the drop folder and of order documents that wait. Not in it: uploads on their way in, half copied files, the database's log (the copy
/// contains it) and whatever else lies in the data folder. It is written under another name and gets its own when it is complete.
/// </summary>
public sealed class BackupMaker(DataFolder data, BackupCheck check, TimeProvider clock)
{
    public const string Prefix = "plate-room-";
    internal const string Unfinished = ".unfinished";

    // Room for what the file system itself needs, and for the log that grows meanwhile.
    private const long SpareBytes = 64L << 20;
    private static readonly TimeSpan Abandoned = TimeSpan.FromDays(1);

    /// <exception cref="PlateRoomException">There is no room, no space, or the place is not fit.</exception>
    public async Task<BackupMade> MakeAsync(string into, string by, CancellationToken cancel = default)
    {
        var began = clock.GetTimestamp();
        var now = clock.GetUtcNow().UtcDateTime;
        Refuse(into);
        Directory.CreateDirectory(into);
        ForgetAbandoned(into, now);
        var folder = FreeName(into, now);
        var making = folder + Unfinished;
        DiskFile.MakePrivateFolder(making);
        try
        {
            var manifest = await FillAsync(making, now, by, cancel);
            manifest.Write(making);
            Directory.Move(making, folder);
            return new BackupMade(folder, manifest, await check.CheckAsync(folder, cancel), clock.GetElapsedTime(began));
        }
        finally
        {
            if (Directory.Exists(making))
            {
                Directory.Delete(making, recursive: true);
            }
        }
    }

    private async Task<BackupManifest> FillAsync(string making, DateTime now, string by, CancellationToken cancel)
    {
        var copy = Path.Combine(making, BackupCheck.Database);
        // First the database: every file that it tells of lay there before.
        var counts = await Task.Run(() => BackupDatabase.Copy(data.Database, copy), cancel);
        var (bytes, sum) = await DiskFile.SumAsync(copy, cancel);
        var list = new List<BackupFile> { new(BackupCheck.Database, bytes, sum) };
        foreach (var (path, from) in Files())
        {
            var to = Path.Combine(making, path);
            DiskFile.MakePrivateFolder(Path.GetDirectoryName(to)!);
            (bytes, sum) = await DiskFile.CopyAsync(from, to, cancel);
            list.Add(new BackupFile(path, bytes, sum));
        }

        await using var connection = BackupDatabase.Open(copy, SqliteOpenMode.ReadOnly);
        var (count, head) = await AuditCheck.HeadAsync(connection, cancel);
        return new BackupManifest(BackupManifest.Known, now, by, ProgramVersion.Text, BackupDatabase.Migration(connection), counts, count, head, list);
    }

    private IEnumerable<(string Path, string From)> Files()
    {
        foreach (var key in Existing(data.Keys, SearchOption.TopDirectoryOnly).Where(f => f.EndsWith(".xml", StringComparison.Ordinal)))
        {
            yield return ($"keys/{Path.GetFileName(key)}", key);
        }

        // Files on the shelf lie one folder down; what lies on top is being copied.
        foreach (var file in Existing(data.Taken, SearchOption.AllDirectories).Where(f => Path.GetDirectoryName(f) != data.Taken))
        {
            yield return ($"taken/{Path.GetRelativePath(data.Taken, file).Replace(Path.DirectorySeparatorChar, '/')}", file);
        }

        foreach (var file in Existing(data.Documents, SearchOption.TopDirectoryOnly).Where(f => Path.GetExtension(f).Length == 0))
        {
            yield return ($"documents/{Path.GetFileName(file)}", file);
        }
    }

    private static IEnumerable<string> Existing(string folder, SearchOption depth) =>
        Directory.Exists(folder) ? Directory.EnumerateFiles(folder, "*", depth).Order(StringComparer.Ordinal) : [];

    private void Refuse(string into)
    {
        if (!File.Exists(data.Database))
        {
            throw new PlateRoomException($"There is no room in {data.Root} to back up.");
        }

        if ((into + Path.DirectorySeparatorChar).StartsWith(data.Root + Path.DirectorySeparatorChar, StringComparison.Ordinal))
        {
            throw new PlateRoomException($"{into} lies inside the data folder {data.Root}: a backup there is lost together with the room. Choose a folder on another disk.");
        }

        var needed = Files().Sum(f => new FileInfo(f.From).Length) + new FileInfo(data.Database).Length + SpareBytes;
        if (DiskSpace.Free(into) is { } free && free < needed)
        {
            throw new PlateRoomException(string.Create(
                CultureInfo.InvariantCulture, $"There are {free / 1e6:0} MB free for {into}, and the backup needs {needed / 1e6:0} MB. Make room there, or choose another folder."));
        }
    }

    private static string FreeName(string into, DateTime now)
    {
        var name = Path.Combine(into, string.Create(CultureInfo.InvariantCulture, $"{Prefix}{now:yyyyMMdd'T'HHmmss'Z'}"));
        return Enumerable.Range(1, int.MaxValue).Select(i => i == 1 ? name : $"{name}-{i}").First(n => !Directory.Exists(n) && !Directory.Exists(n + Unfinished));
    }

    // What a stopped program left behind; another one's may still be growing.
    private static void ForgetAbandoned(string into, DateTime now)
    {
        foreach (var left in Directory.EnumerateDirectories(into, $"{Prefix}*{Unfinished}").Where(d => Directory.GetLastWriteTimeUtc(d) < now - Abandoned))
        {
            Directory.Delete(left, recursive: true);
        }
    }
}

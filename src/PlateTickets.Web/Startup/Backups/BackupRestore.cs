using PlateTickets.Process;

namespace PlateTickets.Web.Startup.Backups;

/// <summary>Puts a backup where a room lies.</summary>
public static class BackupRestore
{
    /// <summary>The database while it is copied: the program does not start on a folder with this in it.</summary>
    public const string Restoring = BackupCheck.Database + ".restoring";

    /// <summary>Restores a backup into an empty data folder, or into the place of another room that is kept beside it.</summary>
    /// <param name="from">The backup's folder; it is checked first.</param>
    /// <param name="root">The data folder.</param>
    /// <param name="keepOld">Moves a room that lies there aside instead of refusing.</param>
    /// <param name="known">The migrations that this program knows.</param>
    /// <param name="nowUtc">For the name of what is moved aside.</param>
    /// <param name="cancel">Cancels.</param>
    /// <returns>What was restored, and where the old room lies now; null without one.</returns>
    /// <exception cref="PlateRoomException">The backup is not whole or too new, the folder is not empty, or the program runs on it. Nothing was changed.</exception>
    public static async Task<(BackupManifest Manifest, string? Old)> RestoreAsync(
        string from, string root, bool keepOld, IReadOnlyCollection<string> known, DateTime nowUtc, CancellationToken cancel = default)
    {
        if (await BackupCheck.FaultsAsync(from, cancel) is { Count: > 0 } faults)
        {
            throw new PlateRoomException($"This backup is not restored: {string.Join(" ", faults)} Use another one.");
        }

        var manifest = BackupManifest.Read(from);
        if (!known.Contains(manifest.Migration))
        {
            throw new PlateRoomException($"The backup was made by version {manifest.Version}, which is newer than this one ({ProgramVersion.Text}): restore it with that version.");
        }

        Directory.CreateDirectory(root);
        string? old = null;
        using (Lock(root))
        {
            if (IsEmpty(root))
            {
                await CopyAsync(from, root, manifest, cancel);
                return (manifest, null);
            }

            if (!keepOld)
            {
                throw new PlateRoomException($"{root} is not empty. Restore into an empty folder (--data FOLDER), or with --keep-old: then what lies there is moved aside, not deleted.");
            }
        }

        old = $"{root.TrimEnd(Path.DirectorySeparatorChar)}.before-restore-{nowUtc:yyyyMMdd'T'HHmmss'Z'}";
        try
        {
            Directory.Move(root, old);
        }
        catch (IOException e)
        {
            throw new PlateRoomException($"{root} could not be moved aside to {old}: {e.Message} Where it is a volume of its own, restore into an empty one.");
        }

        Directory.CreateDirectory(root);
        using (Lock(root))
        {
            await CopyAsync(from, root, manifest, cancel);
        }

        return (manifest, old);
    }

    private static RunningMark Lock(string root) => RunningMark.TryTake(root)
        ?? throw new PlateRoomException($"The program is running on {root}. Stop it first: a room cannot be exchanged under it.");

    private static bool IsEmpty(string root) =>
        !Directory.EnumerateFiles(root, "*", new EnumerationOptions { RecurseSubdirectories = true, IgnoreInaccessible = true, AttributesToSkip = 0 })
            .Any(f => Path.GetFileName(f) != RunningMark.Name);

    private static async Task CopyAsync(string from, string root, BackupManifest manifest, CancellationToken cancel)
    {
        // The database comes first under another name and gets its own last: stopped in between, the folder is no room.
        foreach (var file in manifest.Files.OrderByDescending(f => f.Path == BackupCheck.Database))
        {
            var to = Path.Combine(root, file.Path == BackupCheck.Database ? Restoring : file.Path);
            DiskFile.MakePrivateFolder(Path.GetDirectoryName(to)!);
            if ((await DiskFile.CopyAsync(Path.Combine(from, file.Path), to, cancel)).Sha256 != file.Sha256)
            {
                throw new PlateRoomException($"{file.Path} came over damaged: the disk of the backup or of {root} fails. Nothing was started; empty {root} before the next try.");
            }
        }

        File.Move(Path.Combine(root, Restoring), Path.Combine(root, BackupCheck.Database));
    }
}

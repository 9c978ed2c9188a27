using System.Text.Json;
using Microsoft.Data.Sqlite;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts.Audit;

namespace PlateTickets.Web.Startup.Backups;

/// <summary>What a check of a backup found, kept beside it.</summary>
public sealed record BackupChecked(DateTime AtUtc, IReadOnlyList<string> Faults)
{
    private const string Name = "checked.json";

    public bool Whole => Faults.Count == 0;

    public static BackupChecked? Read(string folder)
    {
        try
        {
            return JsonSerializer.Deserialize<BackupChecked>(File.ReadAllBytes(Path.Combine(folder, Name)));
        }
        catch (Exception e) when (e is IOException or JsonException or UnauthorizedAccessException)
        {
            // Never checked here, or the note cannot be read: both mean that nothing is known.
            return null;
        }
    }

    public static bool IsNote(string path) => path == Name;

    /// <summary>Keeps the note. A backup on a disk that cannot be written to has none.</summary>
    public void Keep(string folder)
    {
        try
        {
            File.WriteAllBytes(Path.Combine(folder, Name), JsonSerializer.SerializeToUtf8Bytes(this));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // The check itself stands; it is only not remembered.
        }
    }
}

/// <summary>Proves that nothing is missing from a backup: each file against the list, the database against itself, the counts and the audit trail.</summary>
public sealed class BackupCheck(TimeProvider clock)
{
    /// <summary>The database's place in a backup.</summary>
    internal const string Database = "plate-room.db";

    /// <summary>Checks and notes the result beside the backup.</summary>
    public async Task<BackupChecked> CheckAsync(string folder, CancellationToken cancel = default)
    {
        var result = new BackupChecked(clock.GetUtcNow().UtcDateTime, await FaultsAsync(folder, cancel));
        if (Directory.Exists(folder))
        {
            result.Keep(folder);
        }

        return result;
    }

    /// <summary>What is wrong, as sentences; empty when the backup is whole.</summary>
    public static async Task<IReadOnlyList<string>> FaultsAsync(string folder, CancellationToken cancel)
    {
        if (!Directory.Exists(folder))
        {
            return [$"There is no folder {folder}."];
        }

        BackupManifest manifest;
        try
        {
            manifest = BackupManifest.Read(folder);
        }
        catch (PlateRoomException damaged)
        {
            return [damaged.Message];
        }

        var faults = await FileFaultsAsync(folder, manifest, cancel);
        // A database whose bytes are others than those that were written is not opened: SQLite would only say the same less clearly.
        return faults.Count > 0 ? faults : await Task.Run(() => DatabaseFaultsAsync(folder, manifest, cancel), cancel);
    }

    private static async Task<List<string>> FileFaultsAsync(string folder, BackupManifest manifest, CancellationToken cancel)
    {
        var faults = new List<string>();
        foreach (var file in manifest.Files)
        {
            var path = Path.GetFullPath(Path.Combine(folder, file.Path));
            if (!path.StartsWith(Path.GetFullPath(folder) + Path.DirectorySeparatorChar, StringComparison.Ordinal))
            {
                faults.Add($"The list names {file.Path}, which would lie outside the backup.");
            }
            else if (!File.Exists(path))
            {
                faults.Add($"{file.Path} is missing.");
            }
            else if (new FileInfo(path).Length is var length && length != file.Bytes)
            {
                faults.Add($"{file.Path} has {length} bytes where {file.Bytes} were written.");
            }
            else if ((await DiskFile.SumAsync(path, cancel)).Sha256 != file.Sha256)
            {
                faults.Add($"{file.Path} is damaged: its content is not what was written.");
            }
        }

        if (!manifest.Files.Any(f => f.Path == Database))
        {
            faults.Add("The list names no database.");
        }

        return faults;
    }

    private static async Task<IReadOnlyList<string>> DatabaseFaultsAsync(string folder, BackupManifest manifest, CancellationToken cancel)
    {
        try
        {
            await using var connection = BackupDatabase.Open(Path.Combine(folder, Database), SqliteOpenMode.ReadOnly);
            if (BackupDatabase.Faults(connection) is { Count: > 0 } faults)
            {
                return faults;
            }

            var counts = BackupDatabase.Counts(connection);
            var wrong = manifest.Tables.Keys.Union(counts.Keys)
                .Where(t => manifest.Tables.GetValueOrDefault(t, -1) != counts.GetValueOrDefault(t, -1))
                .Select(t => $"Table {t} has {counts.GetValueOrDefault(t)} rows where the room had {manifest.Tables.GetValueOrDefault(t)}.")
                .ToList();
            var verdict = await new AuditCheck(connection).WalkAsync(new AuditFigures(manifest.AuditCount, manifest.AuditHead), cancel);
            if (!verdict.Whole)
            {
                wrong.Add($"The audit trail does not fit: {verdict.Wrong}");
            }

            wrong.AddRange(MissingFiles(connection, manifest));
            return wrong;
        }
        catch (SqliteException e)
        {
            return [$"The database cannot be read: {e.Message}"];
        }
    }

    // A file that came in through the drop folder and still waits is in no other place.
    private static IEnumerable<string> MissingFiles(SqliteConnection connection, BackupManifest manifest)
    {
        var kept = manifest.Files.Select(f => f.Path).ToHashSet();
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT Sha256, FileName FROM ArrivedFiles WHERE State IN ('Taken', 'Waiting')";
        using var rows = command.ExecuteReader();
        while (rows.Read())
        {
            if (!kept.Contains($"taken/{rows.GetString(0)}/{rows.GetString(1)}"))
            {
                yield return $"The file {rows.GetString(1)} waits under “Files that came in”, and is not in the backup.";
            }
        }

        // A backup of an earlier version has no such tables.
        using var known = connection.CreateCommand();
        known.CommandText = "SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'DocumentFiles'";
        if (known.ExecuteScalar() is null)
        {
            yield break;
        }

        using var documents = connection.CreateCommand();
        documents.CommandText = "SELECT f.Sha256, f.FileName FROM DocumentFiles AS f JOIN ReceivedDocuments AS d ON d.Id = f.DocumentId WHERE d.FilesOpen > 0 AND d.State IN ('Held', 'Taken')";
        using var files = documents.ExecuteReader();
        while (files.Read())
        {
            if (!kept.Contains($"documents/{files.GetString(0)}"))
            {
                yield return $"The file {files.GetString(1)} waits with its order document, and is not in the backup.";
            }
        }
    }
}

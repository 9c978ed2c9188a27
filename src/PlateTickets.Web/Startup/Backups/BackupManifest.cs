using System.Security.Cryptography;
using System.Text.Json;
using PlateTickets.Process;

namespace PlateTickets.Web.Startup.Backups;

/// <summary>A file of a backup: its place in it with slashes, its length and its SHA-256 in hexadecimal.</summary>
public sealed record BackupFile(string Path, long Bytes, string Sha256);

/// <summary>What a backup holds. It is written last: a folder without it is no backup.</summary>
/// <param name="Format">Of this list; 1.</param>
/// <param name="MadeUtc">When the copy of the database begins to be true.</param>
/// <param name="MadeBy">Who asked for it.</param>
/// <param name="Version">The program that made it.</param>
/// <param name="Migration">The newest migration of its database.</param>
/// <param name="Tables">Rows of each table, counted in the room itself in the same moment.</param>
/// <param name="AuditCount">Entries of the audit trail.</param>
/// <param name="AuditHead">Hash of the last of them.</param>
/// <param name="Files">Every file but this list.</param>
public sealed record BackupManifest(
    int Format, DateTime MadeUtc, string MadeBy, string Version, string Migration, IReadOnlyDictionary<string, long> Tables, long AuditCount, string AuditHead,
    IReadOnlyList<BackupFile> Files)
{
    public const int Known = 1;
    public const string Name = "manifest.json";

    /// <summary>The list's own hash, in the form that sha256sum reads.</summary>
    public const string SumName = "manifest.sha256";

    private static readonly JsonSerializerOptions Form = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    public long Bytes => Files.Sum(f => f.Bytes);

    /// <exception cref="PlateRoomException">There is none, or it is damaged.</exception>
    public static BackupManifest Read(string folder)
    {
        var (file, sum) = (Path.Combine(folder, Name), Path.Combine(folder, SumName));
        if (!File.Exists(file) || !File.Exists(sum))
        {
            throw new PlateRoomException($"{folder} is no whole backup: it has no {(File.Exists(file) ? SumName : Name)}. A backup that was interrupted looks like this.");
        }

        var text = File.ReadAllBytes(file);
        if (File.ReadAllText(sum).Split(' ')[0] != Convert.ToHexStringLower(SHA256.HashData(text)))
        {
            throw new PlateRoomException($"{file} is damaged: its SHA-256 is not the one in {SumName}.");
        }

        try
        {
            return JsonSerializer.Deserialize<BackupManifest>(text, Form) is { Format: Known } manifest
                ? manifest
                : throw new PlateRoomException($"{file} is of a form that this version does not know: use the version that made the backup, or a newer one.");
        }
        catch (JsonException e)
        {
            throw new PlateRoomException($"{file} cannot be read: {e.Message}");
        }
    }

    public void Write(string folder)
    {
        var text = JsonSerializer.SerializeToUtf8Bytes(this, Form);
        DiskFile.Write(Path.Combine(folder, SumName), System.Text.Encoding.UTF8.GetBytes($"{Convert.ToHexStringLower(SHA256.HashData(text))}  {Name}\n"));
        DiskFile.Write(Path.Combine(folder, Name), text);
    }
}

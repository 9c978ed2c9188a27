using System.Runtime.InteropServices;
using PlateTickets.Tickets.Accounts.Audit;
using PlateTickets.Web.Startup;
using PlateTickets.Web.Startup.Backups;

namespace PlateTickets.Web.Administration;

/// <summary>How the program is, at one moment.</summary>
public sealed record ProgramState(
    string? Folder, IReadOnlyList<KeptBackup> Backups, DateTime? NextUtc, (DateTime AtUtc, string Sentence)? Trouble, string DataRoot, long DatabaseBytes,
    long? DataFree, long? BackupFree, AuditFigures Audit, string Version, string Runtime, string Sqlite, string System)
{
    public KeptBackup? Newest => Backups.FirstOrDefault(b => b.Good);
}

/// <summary>Reads it together.</summary>
public sealed class ProgramStates(BackupDesk desk, DataFolder data, AuditQueries audit)
{
    public async Task<ProgramState> ReadAsync(CancellationToken cancel = default)
    {
        var backups = desk.List();
        var database = new FileInfo(data.Database);
        return new ProgramState(
            desk.Folder, backups, desk.NextUtc(backups), desk.Trouble, data.Root, database.Exists ? database.Length : 0, DiskSpace.Free(data.Root),
            desk.Folder is { } folder ? DiskSpace.Free(folder) : null, await audit.HeadAsync(cancel), ProgramVersion.Text, RuntimeInformation.FrameworkDescription,
            $"SQLite {SQLitePCL.raw.sqlite3_libversion().utf8_to_string()}", RuntimeInformation.OSDescription);
    }
}

using System.Runtime.InteropServices;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts.Audit;
using PlateTickets.Web.Startup;
using PlateTickets.Web.Startup.Backups;

namespace PlateTickets.Web.Administration;

/// <summary>How the program is, at one moment.</summary>
public sealed record ProgramState(
    string? Folder, IReadOnlyList<KeptBackup> Backups, DateTime? NextUtc, (DateTime AtUtc, string Sentence)? Trouble, string DataRoot, long DatabaseBytes,
    long? DataFree, long? BackupFree, AuditFigures Audit, string Version, string Runtime, string Database, string System)
{
    public KeptBackup? Newest => Backups.FirstOrDefault(b => b.Good);
}

/// <summary>Reads it together.</summary>
public sealed class ProgramStates(BackupDesk desk, DataFolder data, RoomDatabase database, IDbContextFactory<PlateRoomDb> databases, AuditQueries audit)
{
    public bool IsPostgreSql => database.IsPostgreSql;

    public async Task<ProgramState> ReadAsync(CancellationToken cancel = default)
    {
        var backups = desk.List();
        await using var db = await databases.CreateDbContextAsync(cancel);
        return new ProgramState(
            desk.Folder, backups, desk.NextUtc(backups), desk.Trouble, data.Root, await database.SizeAsync(db, cancel), DiskSpace.Free(data.Root),
            desk.Folder is { } folder ? DiskSpace.Free(folder) : null, await audit.HeadAsync(cancel), ProgramVersion.Text, RuntimeInformation.FrameworkDescription,
            await database.VersionAsync(db, cancel), RuntimeInformation.OSDescription);
    }
}

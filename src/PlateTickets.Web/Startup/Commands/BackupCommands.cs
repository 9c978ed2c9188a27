using System.CommandLine;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web.Startup.Backups;

namespace PlateTickets.Web.Startup.Commands;

/// <summary>"backup": makes one now, also while the program runs.</summary>
internal sealed class BackupCommand : RoomCommand
{
    private readonly Option<string?> _to = new("--to") { Description = "Where the backup's folder is made; without it, the folder of the settings (Backup:Folder)", HelpName = "FOLDER" };

    public BackupCommand(CommandRoom room)
        : base(room, "backup", "Makes a backup of the room, also while the program runs, and checks it") => Options.Add(_to);

    protected override async Task<int> RunAsync(ParseResult asked, CancellationToken cancel)
    {
        await using (await Room.OpenAsync(cancel))
        {
            // Says so when there is no room, or one that this version cannot read.
        }

        var to = asked.GetValue(_to);
        var made = await Room.Services.GetRequiredService<BackupDesk>().MakeAsync(to is null ? null : Path.GetFullPath(to), CommandRoom.Who, cancel);
        await SayAsync($"Backup: {made.Folder}");
        await SayAsync(string.Create(
            CultureInfo.InvariantCulture, $"{made.Manifest.Files.Count} files, {made.Manifest.Bytes / 1e6:0.0} MB, {made.Manifest.Tables.Values.Sum()} rows, {made.Took.TotalSeconds:0.0} s"));
        await SayAsync($"Audit trail: {made.Manifest.AuditCount} entries, head {made.Manifest.AuditHead}");
        return await TellAsync(Room, made.Checked);
    }

    /// <summary>Prints what a check found.</summary>
    public static async Task<int> TellAsync(CommandRoom room, BackupChecked result)
    {
        if (result.Whole)
        {
            await room.Output.WriteLineAsync("Checked: nothing is missing.");
            return 0;
        }

        foreach (var fault in result.Faults)
        {
            await room.Errors.WriteLineAsync(fault);
        }

        await room.Errors.WriteLineAsync("This backup is not whole: do not rely on it.");
        return 1;
    }
}

/// <summary>"check FROM": proves that nothing is missing from a backup.</summary>
internal sealed class CheckCommand : RoomCommand
{
    private readonly Argument<string> _from = new("FROM") { Description = "The folder of one backup" };

    public CheckCommand(CommandRoom room)
        : base(room, "check", "Proves that nothing is missing from a backup") => Arguments.Add(_from);

    protected override async Task<int> RunAsync(ParseResult asked, CancellationToken cancel)
    {
        var result = await new BackupCheck(TimeProvider.System).CheckAsync(Path.GetFullPath(asked.GetValue(_from)!), cancel);
        return await BackupCommand.TellAsync(Room, result);
    }
}

/// <summary>"restore FROM": puts a backup into the data folder.</summary>
internal sealed class RestoreCommand : RoomCommand
{
    private readonly Argument<string> _from = new("FROM") { Description = "The folder of one backup" };
    private readonly Option<bool> _keepOld = new("--keep-old") { Description = "Moves a room that lies in the data folder aside, instead of refusing" };

    public RestoreCommand(CommandRoom room)
        : base(room, "restore", "Checks a backup and puts it into an empty data folder (--data FOLDER)")
    {
        Arguments.Add(_from);
        Options.Add(_keepOld);
    }

    protected override async Task<int> RunAsync(ParseResult asked, CancellationToken cancel)
    {
        Room.Services.GetRequiredService<RoomDatabase>().RefuseServer("This restore");
        var from = Path.GetFullPath(asked.GetValue(_from)!);
        string[] known;
        await using (var db = await Room.Services.GetRequiredService<IDbContextFactory<PlateRoomDb>>().CreateDbContextAsync(cancel))
        {
            known = [.. db.Database.GetMigrations()];
        }

        var (manifest, old) = await BackupRestore.RestoreAsync(from, Room.Folder.Root, asked.GetValue(_keepOld), known, DateTime.UtcNow, cancel);
        // As the next start would do: an older backup is brought up to date, and the trail tells that it was restored.
        await Room.PrepareAsync();
        await Room.Services.GetRequiredService<AuditLog>().WriteAsync(
            CommandRoom.Who, "Backup", Path.GetFileName(from), "restored a backup", string.Create(CultureInfo.InvariantCulture, $"made {manifest.MadeUtc:yyyy-MM-dd HH:mm:ss} UTC by {manifest.MadeBy}"), cancel);
        if (old is not null)
        {
            await SayAsync($"The room that lay there is now in {old}");
        }

        await SayAsync(string.Create(
            CultureInfo.InvariantCulture, $"Restored into {Room.Folder.Root}: {manifest.Files.Count} files, {manifest.Tables.Values.Sum()} rows, as of {manifest.MadeUtc:yyyy-MM-dd HH:mm:ss} UTC. What was done after that is not in it."));
        return 0;
    }
}

using System.CommandLine;
using Microsoft.EntityFrameworkCore;

namespace PlateTickets.Web.Startup.Commands;

/// <summary>"status": which room this is and how large its database is.</summary>
internal sealed class StatusCommand(CommandRoom room) : RoomCommand(room, "status", "Which room lies in the data folder, and how large it is")
{
    protected override async Task<int> RunAsync(ParseResult asked, CancellationToken cancel)
    {
        await using var db = await Room.OpenAsync(cancel);
        var site = await db.Sites.AsNoTracking().OrderBy(s => s.Id).FirstOrDefaultAsync(cancel);
        await SayAsync($"Room: {(site is null ? "not set up yet" : site.Name)}{(site?.IsDemo == true ? " (invented demo)" : "")}");
        await SayAsync($"Folder: {Room.Folder.Root}");
        var database = Room.Services.GetRequiredService<RoomDatabase>();
        await SayAsync($"Database: {await database.VersionAsync(db, cancel)}, {await database.SizeAsync(db, cancel) / 1e6:0.0} MB");
        return 0;
    }
}

using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using System.Xml.Linq;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using PlateTickets.Process;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Sites;
using PlateTickets.Web.Startup.Backups;
using PlateTickets.Web.Startup.Copies;

namespace PlateTickets.Web.Startup.Commands;

/// <summary>"copy --to CONNECTION": copies a SQLite room into an empty PostgreSQL database and proves that both are the same.</summary>
internal sealed class CopyCommand : RoomCommand
{
    private readonly Option<string> _to = new("--to") { Description = "The connection string of the PostgreSQL database; it is made where it is missing", HelpName = "CONNECTION", Required = true };

    public CopyCommand(CommandRoom room)
        : base(room, "copy", "Copies the SQLite room of the data folder into an empty PostgreSQL database, and proves by counts and hashes that both are the same") => Options.Add(_to);

    protected override async Task<int> RunAsync(ParseResult asked, CancellationToken cancel)
    {
        Room.Services.GetRequiredService<RoomDatabase>().RefuseServer("This copy");
        try
        {
            _ = new NpgsqlConnectionStringBuilder(asked.GetValue(_to));
        }
        catch (Exception e) when (e is ArgumentException or FormatException)
        {
            throw new PlateRoomException($"--to is no connection string of PostgreSQL, such as “Host=db;Database=plates;Username=plates”: {e.Message}");
        }

        await using var from = await Room.OpenAsync(cancel);
        using var mark = RunningMark.TryTake(Room.Folder.Root)
            ?? throw new PlateRoomException($"PlateTickets is running on {Room.Folder.Root}. Stop it first: what is scanned during the copy would be missing from it.");
        var target = new RoomDatabase(Microsoft.Extensions.Options.Options.Create(new DatabaseOptions { Provider = DatabaseKind.PostgreSql, ConnectionString = asked.GetValue(_to)! }), Room.Folder, SiteKey.Alone);
        var options = new DbContextOptionsBuilder<PlateRoomDb>();
        try
        {
            target.Use(options);
            var watch = Stopwatch.StartNew();
            IReadOnlyList<TableFigures> copied = [];
            await target.AloneAsync(
                async () =>
                {
                    await using var to = new PlateRoomDb(options.Options);
                    await target.MigrateAsync(to, cancel: cancel);
                    copied = await RoomCopy.CopyAsync(from, to, cancel);
                    await AddKeysAsync(to, cancel);
                },
                cancel);
            foreach (var table in copied.Where(t => t.Rows > 0))
            {
                await SayAsync(string.Create(CultureInfo.InvariantCulture, $"{table.Rows,10} {table.Name,-24} {table.Hash[..16]}"));
            }

            await SayAsync(string.Create(CultureInfo.InvariantCulture, $"{copied.Sum(t => t.Rows)} rows of {copied.Count} tables are the same on both sides ({watch.Elapsed.TotalSeconds:0.0} s)."));
            await SayAsync($"The room is now in {target.Place}. Start the program with Database:Provider=PostgreSql; files that came through the drop folder stay in {Room.Folder.Root}.");
            return 0;
        }
        catch (NpgsqlException e)
        {
            throw new PlateRoomException($"The PostgreSQL database cannot be used: {e.Message} Nothing was copied.");
        }
    }

    // What the room has encrypted, such as the keys of second factors, is read with these.
    private async Task AddKeysAsync(PlateRoomDb to, CancellationToken cancel)
    {
        if (Directory.Exists(Room.Folder.Keys) && !await to.ProtectionKeys.AnyAsync(cancel))
        {
            foreach (var file in Directory.EnumerateFiles(Room.Folder.Keys, "*.xml").Order(StringComparer.Ordinal))
            {
                to.ProtectionKeys.Add(new ProtectionKey { Name = Path.GetFileNameWithoutExtension(file), Xml = XElement.Load(file).ToString(SaveOptions.DisableFormatting) });
            }
        }

        to.ActingAs = CommandRoom.Who;
        to.Note("Room", "room", "copied the room into", "PostgreSQL");
        await to.SaveChangesAsync(cancel);
    }
}

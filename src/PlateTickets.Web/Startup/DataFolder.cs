using Microsoft.Extensions.Options;
using PlateTickets.Tickets.Sites;
using PlateTickets.Web.Startup.Backups;

namespace PlateTickets.Web.Startup;

/// <summary>Where the room's data lie on disk. Naming the places makes no folder: a command may look at a room that is not there.</summary>
public sealed class DataFolder(IOptions<PlateRoomOptions> options, IWebHostEnvironment environment, SiteKey site)
{
    /// <summary>Each site of a group has a folder of its own in it.</summary>
    public string Root { get; } = Path.Combine(Path.GetFullPath(options.Value.DataFolder, environment.ContentRootPath), site.Value);

    /// <summary>Files that came in through the drop folder.</summary>
    public string Taken => Path.Combine(Root, "taken");

    /// <summary>Files of order documents until they are on their tickets.</summary>
    public string Documents => Path.Combine(Root, "documents");

    public string Database => Path.Combine(Root, "plate-room.db");

    /// <summary>Keys of the cookies.</summary>
    public string Keys => Path.Combine(Root, "keys");

    /// <summary>Separations while they are read.</summary>
    public string Spool => Path.Combine(Root, "incoming");

    /// <summary>The database as it was before each of the last upgrades.</summary>
    public string BeforeUpgrades => Path.Combine(Root, "before-upgrades");

    /// <summary>Makes the folders that the running program writes into.</summary>
    /// <exception cref="InvalidOperationException">A restore was interrupted here: without its database the room would begin anew.</exception>
    public void Make()
    {
        if (File.Exists(Path.Combine(Root, BackupRestore.Restoring)))
        {
            throw new InvalidOperationException($"A restore into {Root} was interrupted. Empty the folder and restore again.");
        }

        Directory.CreateDirectory(Spool);
    }
}

using Microsoft.Extensions.Options;

namespace PlateTickets.Web.Startup;

/// <summary>Where the room's data lie on disk.</summary>
public sealed class DataFolder
{
    public DataFolder(IOptions<PlateRoomOptions> options, IWebHostEnvironment environment)
    {
        Root = Path.GetFullPath(options.Value.DataFolder, environment.ContentRootPath);
        Spool = Path.Combine(Root, "incoming");
        Directory.CreateDirectory(Spool);
    }

    public string Root { get; }

    /// <summary>Files that came in through the drop folder.</summary>
    public string Taken => Path.Combine(Root, "taken");

    public string Database => Path.Combine(Root, "plate-room.db");

    /// <summary>Separations while they are read.</summary>
    public string Spool { get; }
}

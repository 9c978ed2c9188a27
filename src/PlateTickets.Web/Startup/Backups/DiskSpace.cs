namespace PlateTickets.Web.Startup.Backups;

/// <summary>What a disk still takes.</summary>
internal static class DiskSpace
{
    /// <summary>Free bytes where a folder is or would be; null where the system does not say.</summary>
    public static long? Free(string folder)
    {
        var there = new DirectoryInfo(folder);
        while (!there.Exists && there.Parent is { } parent)
        {
            there = parent;
        }

        try
        {
            return new DriveInfo(there.FullName).AvailableFreeSpace;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            // A share without such a number: the copying itself will tell.
            return null;
        }
    }
}

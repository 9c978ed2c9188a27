using System.Globalization;
using Microsoft.Data.Sqlite;
using PlateTickets.Process;

namespace PlateTickets.Web.Startup.Backups;

/// <summary>
/// A copy of the SQLite database as it was before it is brought up to date: changes to it only go forward, and this is the way back. Unlike a backup it lies in the data
/// folder and holds the database only; keys and files stay where they are.
/// </summary>
internal static class UpgradeCopy
{
    private const string Prefix = "plate-room.before-";

    // Whoever goes back goes back soon.
    private const int Kept = 3;

    /// <summary>Room for what the migration itself writes.</summary>
    private const long SpareBytes = 64L << 20;

    /// <summary>Makes it, and lets go of the oldest ones.</summary>
    /// <returns>The file; null where there is no room yet that could be lost.</returns>
    /// <exception cref="PlateRoomException">There is no space for it. Nothing was changed.</exception>
    public static string? Make(DataFolder data, string firstMigration)
    {
        if (!File.Exists(data.Database))
        {
            return null;
        }

        using (var there = BackupDatabase.Open(data.Database, SqliteOpenMode.ReadOnly))
        {
            using var tables = there.CreateCommand();
            tables.CommandText = "SELECT count(*) FROM sqlite_master WHERE name = 'Sites'";
            if (tables.ExecuteScalar() is not > 0L)
            {
                return null;
            }
        }

        var needed = new FileInfo(data.Database).Length + SpareBytes;
        if (DiskSpace.Free(data.Root) is { } free && free < needed)
        {
            throw new PlateRoomException(string.Create(
                CultureInfo.InvariantCulture,
                $"The room in {data.Root} must be brought up to date. It is copied first, which needs {needed / 1e6:0} MB, and {free / 1e6:0} MB are free. Make room there and start again; nothing was changed."));
        }

        DiskFile.MakePrivateFolder(data.BeforeUpgrades);
        var file = Path.Combine(data.BeforeUpgrades, $"{Prefix}{firstMigration}.db");
        var making = file + BackupMaker.Unfinished;
        File.Delete(making);
        BackupDatabase.Copy(data.Database, making);
        File.Move(making, file, overwrite: true);
        // A migration's name begins with the time at which it was written.
        foreach (var old in Directory.EnumerateFiles(data.BeforeUpgrades, $"{Prefix}*.db").Where(f => f != file).OrderDescending(StringComparer.Ordinal).Skip(Kept - 1))
        {
            File.Delete(old);
        }

        return file;
    }
}

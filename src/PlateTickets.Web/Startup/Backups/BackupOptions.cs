using System.ComponentModel.DataAnnotations;

namespace PlateTickets.Web.Startup.Backups;

/// <summary>The settings of the backups, section "Backup".</summary>
public sealed class BackupOptions
{
    public const string Section = "Backup";

    /// <summary>Where backups are kept, relative to the program's content root; best on another disk. Empty: none are made by themselves.</summary>
    public string Folder { get; set; } = "";

    /// <summary>A backup is made when the newest is older than so many hours.</summary>
    [Range(1, 24 * 31)]
    public int EveryHours { get; set; } = 24;

    /// <summary>How many of the newest backups are kept.</summary>
    [Range(1, 10_000)]
    public int Keep { get; set; } = 14;

    /// <summary>Of how many more weeks the first backup is kept; 0 for none.</summary>
    [Range(0, 1000)]
    public int KeepWeeks { get; set; } = 8;
}

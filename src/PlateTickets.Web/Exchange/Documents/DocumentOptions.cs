using System.ComponentModel.DataAnnotations;

namespace PlateTickets.Web.Exchange.Documents;

/// <summary>How order documents come in: section "Documents".</summary>
public sealed class DocumentOptions
{
    public const string Section = "Documents";

    /// <summary>Folder whose complete documents and packages are taken in, relative to the program's content root; empty for none. On one node only.</summary>
    public string DropFolder { get; set; } = "";

    /// <summary>For how long a file in the folder must not change before it counts as complete, in seconds.</summary>
    [Range(1, 3600)]
    public int SettleSeconds { get; set; } = 5;

    /// <summary>Longest package in bytes; 2 GiB unless set.</summary>
    [Range(1, long.MaxValue)]
    public long LongestPackage { get; set; } = 2L << 30;

    /// <summary>Most bytes of files that a package may unpack to; 16 GiB unless set.</summary>
    [Range(1, long.MaxValue)]
    public long MostUnpacked { get; set; } = 16L << 30;
}

using System.ComponentModel.DataAnnotations;
using PlateTickets.Tickets.Demo;

namespace PlateTickets.Web.Startup;

/// <summary>The settings of the program: appsettings.json, environment or command line, section "Room".</summary>
public sealed class PlateRoomOptions
{
    public const string Section = "Room";

    /// <summary>How an empty database begins: Demo or Empty. Short form on the command line: --room empty.</summary>
    [EnumDataType(typeof(RoomStartKind))]
    public RoomStartKind Start { get; set; } = RoomStartKind.Demo;

    /// <summary>Folder of the database and of files on their way in; relative to the program's content root.</summary>
    [Required]
    public string DataFolder { get; set; } = "data";

    /// <summary>IANA name of the site's time zone for a new room; empty takes the machine's.</summary>
    public string TimeZone { get; set; } = "";

    /// <summary>
    /// The address under which phones and tablets reach this program, such as https://plates.example:8443. With it the QR code of a
    /// traveler opens the sheet's page on a phone; without it the code holds the sheet's number only.
    /// </summary>
    public string Address { get; set; } = "";

    /// <summary>Longest separation file in bytes; 16 GiB unless set.</summary>
    [Range(1, long.MaxValue)]
    public long LongestFile { get; set; } = 16L << 30;

    /// <summary>How often the plan is made anew even when nothing happened, in seconds.</summary>
    [Range(1, 3600)]
    public int PlanEverySeconds { get; set; } = 60;

    /// <summary>For how long a plan is improved in the background, in seconds; 0 leaves it as it is made.</summary>
    [Range(0, 3600)]
    public int ImproveSeconds { get; set; } = 20;

    /// <summary>A proxy with https stands in front and says who asks (X-Forwarded-For, -Proto, -Host).</summary>
    public bool BehindProxy { get; set; }

    /// <summary>The proxy's addresses or networks, such as 10.0.0.0/8; this machine's own when empty.</summary>
    public IList<string> Proxies { get; set; } = [];

    /// <summary>Folder whose complete files are taken in as separations, relative to the program's content root; empty for none.</summary>
    public string DropFolder { get; set; } = "";

    /// <summary>For how long a file in the drop folder must not change before it counts as complete, in seconds.</summary>
    [Range(1, 3600)]
    public int DropSettleSeconds { get; set; } = 5;

    /// <summary>For how many days the files that were taken from it are kept at least, once their ticket is over or they were set aside; 0 keeps them for ever.</summary>
    [Range(0, 36500)]
    public int KeepTakenDays { get; set; } = 90;
}

namespace PlateTickets.Web.Shell;

/// <summary>In which colours this browser shows the pages. Without a choice the device's own setting counts.</summary>
internal static class Look
{
    /// <summary>Written by js/look.js, for a year.</summary>
    public const string Cookie = "plate-look";

    /// <summary>The word of the device's own setting; it is kept as no cookie.</summary>
    public const string Device = "device";

    /// <summary>Every choice with its words on the screen.</summary>
    public static IReadOnlyList<(string Name, string Words)> Choices { get; } =
        [(Device, "As this device says"), ("light", "Light"), ("dark", "Dark"), ("yellow", "Yellow light")];

    /// <summary>What data-look of the page is; null where the device decides, also when what is asked for is unknown.</summary>
    /// <remarks>A wall has no keyboard: it may be asked for in the address.</remarks>
    public static string? Of(HttpRequest request) =>
        (request.Path == Urls.Board && string.Equals(request.Query["wall"], "true", StringComparison.OrdinalIgnoreCase) && request.Query["look"].ToString() is { Length: > 0 } asked && Choices.Any(c => c.Name == asked)
            ? asked
            : request.Cookies[Cookie]) is { } look && look != Device && Choices.Any(c => c.Name == look) ? look : null;
}

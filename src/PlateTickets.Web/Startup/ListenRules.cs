using System.Net;

namespace PlateTickets.Web.Startup;

/// <summary>Passwords and cookies cross the network encrypted or not at all.</summary>
internal static class ListenRules
{
    public static void Check(WebApplication app, PlateRoomOptions options)
    {
        if (options.BehindProxy)
        {
            return;
        }

        if (app.Configuration.GetSection("Kestrel:Endpoints").GetChildren().FirstOrDefault(e => IsOpen(e["Url"] ?? "")) is { } endpoint)
        {
            throw Refused(endpoint["Url"]!);
        }

        var urls = (app.Configuration[WebHostDefaults.ServerUrlsKey] ?? PlateRoomApp.DefaultUrl).Split(';', StringSplitOptions.RemoveEmptyEntries);
        if (urls.FirstOrDefault(IsOpen) is { } open)
        {
            throw Refused(open);
        }
    }

    /// <summary>Plain http on an address that other machines reach?</summary>
    private static bool IsOpen(string url)
    {
        if (!url.StartsWith("http://", StringComparison.OrdinalIgnoreCase))
        {
            return false;
        }

        var host = BindingAddress.Parse(url).Host.Trim('[', ']');
        return !host.Equals("localhost", StringComparison.OrdinalIgnoreCase) && !(IPAddress.TryParse(host, out var address) && IPAddress.IsLoopback(address));
    }

    private static InvalidOperationException Refused(string url) => new(
        $"{url} would send passwords over the network as plain text. Use https, or an address of this machine such as {PlateRoomApp.DefaultUrl}, "
        + "or put a proxy with https in front and set Room:BehindProxy to true.");
}

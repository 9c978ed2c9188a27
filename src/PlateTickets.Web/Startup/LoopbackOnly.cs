using System.Net;

namespace PlateTickets.Web.Startup;

/// <summary>There is no sign-in yet, so the program answers this machine only.</summary>
internal static class LoopbackOnly
{
    public static void Check(WebApplication app)
    {
        if (app.Configuration.GetSection("Kestrel:Endpoints").Exists())
        {
            throw new InvalidOperationException("Set the address with --urls: addresses under Kestrel:Endpoints are not checked, and this room has no sign-in yet.");
        }

        var urls = (app.Configuration[WebHostDefaults.ServerUrlsKey] ?? PlateRoomApp.DefaultUrl).Split(';', StringSplitOptions.RemoveEmptyEntries);
        foreach (var url in urls)
        {
            var host = BindingAddress.Parse(url).Host.Trim('[', ']');
            if (!host.Equals("localhost", StringComparison.OrdinalIgnoreCase) && !(IPAddress.TryParse(host, out var address) && IPAddress.IsLoopback(address)))
            {
                throw new InvalidOperationException(
                    $"{url} would open the room to the network, and it has no sign-in yet. Use an address of this machine, such as {PlateRoomApp.DefaultUrl}.");
            }
        }
    }
}

using System.Net;
using System.Net.Sockets;

namespace PlateTickets.Web.Exchange;

/// <summary>Which hosts the setting lets through, and which addresses are public.</summary>
internal sealed class HostList
{
    // What is not to be reached over the public network: the IANA registries of special-purpose addresses (RFC 6890 and its successors), and multicast.
    private static readonly IPNetwork[] NotPublic =
    [
        .. new[]
        {
            "0.0.0.0/8", "10.0.0.0/8", "100.64.0.0/10", "127.0.0.0/8", "169.254.0.0/16", "172.16.0.0/12", "192.0.0.0/24", "192.0.2.0/24", "192.88.99.0/24",
            "192.168.0.0/16", "198.18.0.0/15", "198.51.100.0/24", "203.0.113.0/24", "224.0.0.0/4", "240.0.0.0/4",
            // IETF protocol assignments with Teredo, documentation, 6to4.
            "2001::/23", "2001:db8::/32", "2002::/16", "3fff::/20",
        }.Select(IPNetwork.Parse),
    ];

    // All that IPv6 has of public addresses lies here; loopback, NAT64, local, link-local and multicast ones do not.
    private static readonly IPNetwork GlobalUnicast = IPNetwork.Parse("2000::/3");

    private readonly HashSet<string> _names = new(StringComparer.OrdinalIgnoreCase);
    private readonly List<IPNetwork> _networks = [];

    public HostList(IEnumerable<string> allowed)
    {
        foreach (var host in allowed.Select(h => h.Trim()))
        {
            if (Network(host) is { } network)
            {
                _networks.Add(network);
            }
            else
            {
                _names.Add(host.TrimEnd('.'));
            }
        }
    }

    public static bool IsHost(string text) => Network(text.Trim()) is not null || (!text.Contains('/', StringComparison.Ordinal) && Uri.CheckHostName(text.Trim()) == UriHostNameType.Dns);

    public static bool IsPublic(IPAddress address)
    {
        var plain = Plain(address);
        return (plain.AddressFamily == AddressFamily.InterNetwork || GlobalUnicast.Contains(plain)) && !Array.Exists(NotPublic, n => n.Contains(plain));
    }

    /// <summary>Does the setting name this host, or the address that it is?</summary>
    public bool Names(string host) => IPAddress.TryParse(host.Trim('[', ']'), out var address) ? Holds(address) : _names.Contains(host.TrimEnd('.'));

    /// <summary>May a connection for this host go to this address?</summary>
    public bool Lets(string host, IPAddress address) => IsPublic(address) || Holds(address) || Names(host);

    private bool Holds(IPAddress address) => _networks.Exists(n => n.Contains(Plain(address)));

    private static IPAddress Plain(IPAddress address) => address.IsIPv4MappedToIPv6 ? address.MapToIPv4() : address;

    private static IPNetwork? Network(string text)
    {
        if (IPAddress.TryParse(text, out var one))
        {
            var plain = Plain(one);
            return new IPNetwork(plain, plain.AddressFamily == AddressFamily.InterNetwork ? 32 : 128);
        }

        return IPNetwork.TryParse(text, out var network) ? network : null;
    }
}

using System.ComponentModel.DataAnnotations;
using PlateTickets.Web.Startup;

namespace PlateTickets.Web.Exchange;

/// <summary>What goes to other programs and comes from them: section "Exchange".</summary>
public sealed class ExchangeOptions : IValidatableObject
{
    public const string Section = "Exchange";

    /// <summary>
    /// Hosts to which messages go although they are not in the public network, or without https: names (mis.plant.example), addresses (10.1.2.3) or networks
    /// (10.1.0.0/16). As a list, or in one value parted by commas.
    /// </summary>
    public IList<string> AllowedHosts { get; set; } = [];

    /// <summary>The address under which customers and other programs reach this one, such as https://plates.example; empty takes Room:Address.</summary>
    public string PublicAddress { get; set; } = "";

    /// <summary>False keeps all messages back, for a copy of the room that must not tell anybody: they wait.</summary>
    public bool Sends { get; set; } = true;

    /// <summary>Without a slash at the end; empty when neither setting says it.</summary>
    public string ReachedAt(PlateRoomOptions room) => (PublicAddress.Length > 0 ? PublicAddress : room.Address).TrimEnd('/');

    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (PublicAddress.Length > 0 && !(Uri.TryCreate(PublicAddress, UriKind.Absolute, out var address) && address.Scheme is "http" or "https"))
        {
            yield return new ValidationResult($"{Section}:{nameof(PublicAddress)} must be an address such as https://plates.example, not “{PublicAddress}”.");
        }

        foreach (var host in AllowedHosts.Where(h => !HostList.IsHost(h)))
        {
            yield return new ValidationResult($"{Section}:{nameof(AllowedHosts)} holds “{host}”: name a host (mis.plant.example), an address (10.1.2.3) or a network (10.1.0.0/16), without https:// and port.");
        }
    }
}

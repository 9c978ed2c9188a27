using PlateTickets.Tickets.Exchange.Sending;

namespace PlateTickets.Web.Exchange;

/// <summary>What sends messages to other programs and to customers.</summary>
internal static class ExchangeServices
{
    public static void AddServices(IServiceCollection services)
    {
        services.AddOptions<ExchangeOptions>().BindConfiguration(ExchangeOptions.Section)
            // One value on a command line is enough for a short list.
            .Configure<IConfiguration>((options, configuration) =>
            {
                foreach (var host in (configuration[$"{ExchangeOptions.Section}:{nameof(ExchangeOptions.AllowedHosts)}"] ?? "").Split([',', ' '], StringSplitOptions.RemoveEmptyEntries))
                {
                    options.AllowedHosts.Add(host);
                }
            })
            .ValidateDataAnnotations().ValidateOnStart();
        services.AddSingleton<OutgoingHttp>();
        services.AddSingleton<ISecretKeeper, SecretKeeper>();
    }
}

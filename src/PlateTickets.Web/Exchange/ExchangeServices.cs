using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Web.Exchange.Mail;
using PlateTickets.Web.Exchange.Webhooks;

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
        services.AddOptions<MailOptions>().BindConfiguration(MailOptions.Section).ValidateDataAnnotations().ValidateOnStart();
        services.AddSingleton<WebhookPost>();
        services.AddSingleton<WebhookDesk>();
        services.AddSingleton<OrderContacts>();
        services.AddSingleton<IDeliverySender, WebhookSender>();
        services.AddSingleton<IDeliverySender, MailSender>();
        services.AddSingleton<DeliveryDesk>();
        services.AddSingleton<DeliveryBook>();
        services.AddSingleton<DeliveryGauge>();
        services.AddSingleton<OutlookWatch>();
        services.AddHostedService<OutlookLoop>();
        services.AddHostedService<DeliveryLoop>();
    }
}

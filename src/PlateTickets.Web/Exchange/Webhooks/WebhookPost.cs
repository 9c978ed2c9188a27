using System.Net.Http.Headers;
using PlateTickets.Tickets.Exchange.Sending;

namespace PlateTickets.Web.Exchange.Webhooks;

/// <summary>Signs a message and posts it to a webhook.</summary>
internal sealed class WebhookPost(OutgoingHttp http, ISecretKeeper secrets, TimeProvider clock)
{
    public async Task<HttpAnswer> SendAsync(Webhook to, string id, (byte[] Body, string ContentType) message, CancellationToken cancel)
    {
        if (secrets.Read(to.Secret) is not { } secret)
        {
            return new HttpAnswer(0, "", "The secret of this webhook cannot be read with the keys of this machine: make a new secret and give it to the receiver.", null);
        }

        var content = new ByteArrayContent(message.Body);
        content.Headers.ContentType = MediaTypeHeaderValue.Parse(message.ContentType);
        return await http.PostAsync(to.Url, content, StandardSignature.Headers(secret, id, clock.GetUtcNow(), message.Body), cancel);
    }
}

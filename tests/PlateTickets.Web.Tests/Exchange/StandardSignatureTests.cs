using System.Text;
using Microsoft.AspNetCore.Http;
using PlateTickets.Web.Exchange.Webhooks;
using StandardWebhooks;
using StandardWebhooks.Diagnostics;

namespace PlateTickets.Web.Tests.Exchange;

/// <summary>Signatures against the example of the Standard Webhooks specification 1.0.0 and against the library StandardWebhooks 1.1.2, which is not ours.</summary>
public class StandardSignatureTests
{
    // The specification's own example.
    private const string Secret = "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw";
    private const string Id = "msg_p5jXN8AQM9LWM0D4loKWxJek";
    private const string Body = """{"test": 2432232314}""";
    private const string Signature = "v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=";

    private static readonly DateTimeOffset At = DateTimeOffset.FromUnixTimeSeconds(1614265330);

    [Fact]
    public void ExampleOfTheSpecification_IsSignedAlike_ByTheLibraryAndHere()
    {
        Assert.Equal(Signature, new StandardWebhook(Secret).Sign(Id, At, Body));
        var headers = StandardSignature.Headers(Secret, Id, At, Encoding.UTF8.GetBytes(Body));
        Assert.Equal((Id, "1614265330", Signature), (headers["webhook-id"], headers["webhook-timestamp"], headers["webhook-signature"]));
    }

    [Fact]
    public void NewSecret_SignsWhatTheLibraryVerifies_AndNothingElse()
    {
        var secret = StandardSignature.NewSecret();
        Assert.Matches("^whsec_[A-Za-z0-9+/]{43}=$", secret);
        Assert.NotEqual(secret, StandardSignature.NewSecret());
        const string text = """{"title":"Käsefolie “Süd” 250 g"}""";
        var signed = new HeaderDictionary();
        foreach (var (name, value) in StandardSignature.Headers(secret, "msg_7", DateTimeOffset.UtcNow, Encoding.UTF8.GetBytes(text)))
        {
            signed[name] = value;
        }

        new StandardWebhook(secret).Verify(text, signed);
        Assert.Throws<WebhookVerificationException>(() => new StandardWebhook(secret).Verify(text + " ", signed));
        Assert.Throws<WebhookVerificationException>(() => new StandardWebhook(StandardSignature.NewSecret()).Verify(text, signed));
        signed["webhook-id"] = "msg_8";
        Assert.Throws<WebhookVerificationException>(() => new StandardWebhook(secret).Verify(text, signed));
    }
}

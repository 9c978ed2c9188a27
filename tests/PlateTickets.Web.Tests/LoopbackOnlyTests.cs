using PlateTickets.Web.Startup;

namespace PlateTickets.Web.Tests;

public class LoopbackOnlyTests
{
    [Theory]
    [InlineData("http://0.0.0.0:0")]
    [InlineData("http://*:0")]
    [InlineData("http://192.168.1.20:0")]
    [InlineData("http://localhost:0;http://[::]:0")]
    public void AddressOpenToTheNetwork_IsRefused(string urls)
    {
        var data = Path.Combine(Path.GetTempPath(), $"plate-room-{Guid.NewGuid():N}");
        var refused = Assert.Throws<InvalidOperationException>(() => PlateRoomApp.Build(["--urls", urls, "--data", data]));
        Assert.Contains("has no sign-in yet", refused.Message, StringComparison.Ordinal);
    }
}

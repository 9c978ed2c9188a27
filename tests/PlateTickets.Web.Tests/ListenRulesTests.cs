using PlateTickets.Web.Startup;

namespace PlateTickets.Web.Tests;

public class ListenRulesTests
{
    [Theory]
    [InlineData("http://0.0.0.0:0")]
    [InlineData("http://*:0")]
    [InlineData("http://192.168.1.20:0")]
    [InlineData("http://localhost:0;http://[::]:0")]
    public void PlainHttpToTheNetwork_IsRefused(string urls)
    {
        var refused = Assert.Throws<InvalidOperationException>(() => Build("--urls", urls));
        Assert.Contains("would send passwords over the network as plain text", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void PlainHttpOfKestrelsOwnSettings_IsRefusedToo()
    {
        var refused = Assert.Throws<InvalidOperationException>(() => Build("--Kestrel:Endpoints:Open:Url", "http://*:0"));
        Assert.Contains("http://*:0", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--urls", "https://0.0.0.0:0")]
    [InlineData("--urls", "http://127.0.0.1:0;http://[::1]:0")]
    [InlineData("--urls", "http://0.0.0.0:0", "--Room:BehindProxy", "true")]
    public async Task Https_ThisMachine_AndAProxyInFront_AreTaken(params string[] args) => await Build(args).DisposeAsync();

    private static Microsoft.AspNetCore.Builder.WebApplication Build(params string[] args) =>
        PlateRoomApp.Build([.. args, "--data", Path.Combine(Path.GetTempPath(), $"plate-room-{Guid.NewGuid():N}")]);
}

using System.Diagnostics;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Sockets;
using PlateTickets.Web.Startup.Commands;

namespace PlateTickets.Tests.Shared;

/// <summary>The program as a process of its own, which can be killed and comes back on the same port with the same settings.</summary>
internal sealed class ProgramProcess(params string[] settings) : IAsyncDisposable
{
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(2);

    private System.Diagnostics.Process? _process;

    public int Port { get; } = FreePort();

    public string Url => $"http://127.0.0.1:{Port}";

    private static string Program => Path.Combine(AppContext.BaseDirectory, "PlateTickets.Web.dll");

    /// <summary>Starts it, and returns when it is ready.</summary>
    public async Task StartAsync()
    {
        _process = System.Diagnostics.Process.Start("dotnet",
            [Program, "--urls", Url, "--contentRoot", Path.Combine(Repository.Root, "src", "PlateTickets.Web"), "--Logging:LogLevel:Default", "Error", "--Room:ImproveSeconds", "0", .. settings]);
        using var http = new HttpClient();
        for (var waited = Stopwatch.StartNew(); waited.Elapsed < Longest; await Task.Delay(50))
        {
            Assert.False(_process.HasExited, "The program did not start.");
            try
            {
                using var reply = await http.GetAsync(Url + "/health/ready");
                if (reply.IsSuccessStatusCode)
                {
                    return;
                }
            }
            catch (HttpRequestException)
            {
                // Not listening yet.
            }
        }

        Assert.Fail("The program was not ready within two minutes.");
    }

    /// <summary>Ends it with SIGKILL: nothing is flushed, nothing is closed.</summary>
    public async Task KillAsync()
    {
        _process!.Kill();
        await _process.WaitForExitAsync();
        _process.Dispose();
        _process = null;
    }

    /// <summary>An API key with a role, made as an administrator would.</summary>
    public static async Task<string> MakeKeyAsync(string role, params string[] settings)
    {
        using var key = new StringWriter();
        using var errors = new StringWriter();
        var status = await RoomCommands.RunAsync(["keys", "create", $"Test {Guid.NewGuid():N}", "--role", role, .. settings], key, errors);
        Assert.True(status == 0, errors.ToString());
        return key.ToString().Trim();
    }

    public static HttpClient Client(string url, string key, HttpMessageHandler? handler = null) => new(handler ?? new HttpClientHandler())
    {
        BaseAddress = new Uri(url),
        DefaultRequestHeaders = { Authorization = new AuthenticationHeaderValue("Bearer", key) },
    };

    public async ValueTask DisposeAsync()
    {
        if (_process is not null)
        {
            await KillAsync();
        }
    }

    internal static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}

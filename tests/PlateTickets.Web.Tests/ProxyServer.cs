using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using PlateTickets.Tests.Shared;

namespace PlateTickets.Web.Tests;

/// <summary>A real nginx with the configuration of deploy/nginx.conf, in which only nodes, port, name and certificate are put in.</summary>
internal sealed class ProxyServer : IAsyncDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("plate-proxy-").FullName;
    private readonly System.Diagnostics.Process _process;

    private ProxyServer(params ProgramProcess[] nodes)
    {
        Port = ProgramProcess.FreePort();
        WriteCertificate();
        var room = File.ReadAllText(Path.Combine(Repository.Root, "deploy", "nginx.conf"));
        foreach (var (there, here) in new[]
        {
            ("server node1:5080", $"server 127.0.0.1:{nodes[0].Port}"),
            ("server node2:5080", $"server 127.0.0.1:{nodes[1].Port}"),
            ("listen 443 ssl", $"listen 127.0.0.1:{Port} ssl"),
            ("server_name plates.example", "server_name 127.0.0.1"),
            ("/etc/nginx/plates.crt", Path.Combine(_folder, "plates.crt")),
            ("/etc/nginx/plates.key", Path.Combine(_folder, "plates.key")),
        })
        {
            Assert.Equal(2, room.Split(there).Length);
            room = room.Replace(there, here, StringComparison.Ordinal);
        }

        File.WriteAllText(Path.Combine(_folder, "plates.conf"), room);
        File.WriteAllText(Path.Combine(_folder, "nginx.conf"), $$"""
            {{(Environment.UserName == "root" ? "user root;" : "")}}
            daemon off;
            worker_processes 1;
            pid {{_folder}}/pid;
            error_log {{_folder}}/error.log;
            events {}
            http {
                client_body_temp_path {{_folder}}/body;
                proxy_temp_path {{_folder}}/proxy;
                fastcgi_temp_path {{_folder}}/fastcgi;
                uwsgi_temp_path {{_folder}}/uwsgi;
                scgi_temp_path {{_folder}}/scgi;
                # The node that answered stands last of those that were asked.
                log_format nodes '$upstream_addr status $status at $uri';
                access_log {{_folder}}/access.log nodes;
                include {{_folder}}/plates.conf;
            }
            """);
        string[] arguments = ["-p", _folder, "-e", Path.Combine(_folder, "error.log"), "-c", Path.Combine(_folder, "nginx.conf")];
        var program = new[] { "/usr/sbin/nginx", "/usr/bin/nginx" }.FirstOrDefault(File.Exists) ?? "nginx";
        Tool.Run("nginx-light", program, [.. arguments, "-t"]);
        _process = System.Diagnostics.Process.Start(program, arguments);
    }

    public int Port { get; }

    public string Url => $"https://127.0.0.1:{Port}";

    public static async Task<ProxyServer> StartAsync(params ProgramProcess[] nodes)
    {
        var proxy = new ProxyServer(nodes);
        using var http = new HttpClient(proxy.Handler()) { BaseAddress = new Uri(proxy.Url) };
        for (var waited = Stopwatch.StartNew(); ; await Task.Delay(20))
        {
            Assert.True(waited.Elapsed < TimeSpan.FromSeconds(30) && !proxy._process.HasExited, $"nginx does not answer: {proxy.Errors}");
            try
            {
                using var reply = await http.GetAsync("/health/live");
                return proxy;
            }
            catch (HttpRequestException)
            {
                // Not listening yet.
            }
        }
    }

    public string Errors => File.Exists(Path.Combine(_folder, "error.log")) ? File.ReadAllText(Path.Combine(_folder, "error.log")) : "";

    /// <summary>Ports of the nodes that answered at an address, in order. nginx notes an answer after it was given, so the expected number is waited for.</summary>
    public async Task<List<int>> AnsweredAsync(string address, int answers)
    {
        for (var waited = Stopwatch.StartNew(); ; await Task.Delay(10))
        {
            List<int> ports =
            [
                .. (await File.ReadAllLinesAsync(Path.Combine(_folder, "access.log"))).Where(l => l.EndsWith(" " + address, StringComparison.Ordinal))
                    .Select(l => int.Parse(l[..l.IndexOf(" status ", StringComparison.Ordinal)].Split(':')[^1], CultureInfo.InvariantCulture)),
            ];
            if (ports.Count >= answers)
            {
                Assert.Equal(answers, ports.Count);
                return ports;
            }

            Assert.True(waited.Elapsed < TimeSpan.FromSeconds(30), $"nginx noted {ports.Count} answers at {address} instead of {answers}.");
        }
    }

    /// <summary>A client that takes this proxy's own certificate and no other.</summary>
    public HttpClientHandler Handler(bool cookies = true) => new()
    {
        UseCookies = cookies,
        CookieContainer = new CookieContainer(),
        AllowAutoRedirect = false,
        ServerCertificateCustomValidationCallback = (_, shown, _, _) => IsOurs(shown),
    };

    public bool IsOurs(X509Certificate? shown) => shown?.GetCertHashString() == _certificate;

    public async ValueTask DisposeAsync()
    {
        // SIGTERM to the master, which ends its worker.
        Tool.Run("procps", "kill", _process.Id.ToString(CultureInfo.InvariantCulture));
        await _process.WaitForExitAsync();
        _process.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    private string? _certificate;

    private void WriteCertificate()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using var made = new CertificateRequest("CN=127.0.0.1", key, HashAlgorithmName.SHA256).CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(1));
        _certificate = made.GetCertHashString();
        File.WriteAllText(Path.Combine(_folder, "plates.crt"), made.ExportCertificatePem());
        File.WriteAllText(Path.Combine(_folder, "plates.key"), key.ExportPkcs8PrivateKeyPem());
    }
}

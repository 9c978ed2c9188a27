using System.Diagnostics.CodeAnalysis;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Microsoft.Extensions.Options;

namespace PlateTickets.Web.Exchange;

/// <summary>Finds the addresses of a name.</summary>
internal delegate Task<IPAddress[]> NameLookup(string host, CancellationToken cancel);

/// <summary>
/// The one way by which messages leave for addresses that a person or another program gave. Nothing goes into the house's own network unless
/// <see cref="ExchangeOptions.AllowedHosts"/> says so: a name is looked up here, and the connection goes to the very address that was checked.
/// </summary>
public sealed class OutgoingHttp : IDisposable
{
    /// <summary>Longest part of an answer that is kept, in bytes.</summary>
    public const int LongestAnswer = 4 * 1024;

    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(15);

    private readonly HostList _hosts;
    private readonly NameLookup _lookup;
    private readonly TimeSpan _longest;
    private readonly HttpClient _http;

    public OutgoingHttp(IOptions<ExchangeOptions> options)
        : this(options.Value.AllowedHosts, Dns.GetHostAddressesAsync, Longest)
    {
    }

    internal OutgoingHttp(IEnumerable<string> allowed, NameLookup lookup, TimeSpan longest)
    {
        (_hosts, _lookup, _longest) = (new HostList(allowed), lookup, longest);
        var handler = new SocketsHttpHandler
        {
            AllowAutoRedirect = false,
            UseProxy = false,
            UseCookies = false,
            PooledConnectionLifetime = TimeSpan.FromMinutes(2),
            ConnectTimeout = TimeSpan.FromSeconds(5),
            MaxResponseDrainSize = 64 * 1024,
            ResponseDrainTimeout = TimeSpan.FromMilliseconds(200),
            MaxResponseHeadersLength = 16,
            // The receiver is a stranger: it learns nothing of our traces.
            ActivityHeadersPropagator = null,
            ConnectCallback = ConnectAsync,
        };
        _http = new HttpClient(handler) { Timeout = Timeout.InfiniteTimeSpan, MaxResponseContentBufferSize = 64 * 1024 };
        _http.DefaultRequestHeaders.UserAgent.ParseAdd("PlateTickets");
    }

    /// <summary>Why this address cannot be used, in a sentence; null when it can. What a name stands for is only seen when something is sent.</summary>
    [SuppressMessage("Design", "CA1054:URI-like parameters should not be strings", Justification = "It is what a person typed.")]
    public string? Refusal(string url)
    {
        if (!Uri.TryCreate(url, UriKind.Absolute, out var address) || address.Scheme is not ("http" or "https") || address.Host.Length == 0)
        {
            return "This is no address for messages: give a whole one that begins with https://.";
        }

        if (address.UserInfo.Length > 0)
        {
            return "The address must not hold a user name or password.";
        }

        var host = address.IdnHost;
        if (_hosts.Names(host))
        {
            return null;
        }

        if (address.Scheme != "https")
        {
            return $"What goes over http:// can be read by others: use https://, or have {host} named in the setting Exchange:AllowedHosts.";
        }

        var isLocal = IPAddress.TryParse(host, out var ip)
            ? !_hosts.Lets(host, ip)
            : host.Equals("localhost", StringComparison.OrdinalIgnoreCase) || host.EndsWith(".localhost", StringComparison.OrdinalIgnoreCase);
        return isLocal ? NotPublic(host) : null;
    }

    /// <summary>Sends once; the body is disposed of. Trouble on the way is an answer and no exception.</summary>
    [SuppressMessage("Design", "CA1054:URI-like parameters should not be strings", Justification = "It lies as text in the database.")]
    public async Task<HttpAnswer> PostAsync(string url, HttpContent body, IReadOnlyDictionary<string, string> headers, CancellationToken cancel)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, (Uri?)null) { Content = body };
        if (Refusal(url) is { } refused)
        {
            return new HttpAnswer(0, "", refused, null);
        }

        request.RequestUri = new Uri(url);
        foreach (var (name, value) in headers)
        {
            request.Headers.Add(name, value);
        }

        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        limit.CancelAfter(_longest);
        try
        {
            using var response = await _http.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, limit.Token);
            return new HttpAnswer(
                (int)response.StatusCode, await BeginningAsync(response, limit.Token), null,
                response.Headers.TryGetValues("Retry-After", out var after) ? string.Join(',', after) : null);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return new HttpAnswer(0, "", $"{request.RequestUri.Authority} did not answer in time ({_longest.TotalSeconds:0.#} s).", null);
        }
        catch (HttpRequestException e)
        {
            return new HttpAnswer(0, "", Trouble(e, request.RequestUri), null);
        }
    }

    public void Dispose() => _http.Dispose();

    // The status is the answer: what is cut off or breaks off after it changes nothing.
    private static async Task<string> BeginningAsync(HttpResponseMessage response, CancellationToken cancel)
    {
        var read = new byte[LongestAnswer];
        var length = 0;
        try
        {
            await using var stream = await response.Content.ReadAsStreamAsync(cancel);
            while (length < read.Length && await stream.ReadAsync(read.AsMemory(length), cancel) is > 0 and var more)
            {
                length += more;
            }
        }
        catch (Exception e) when (e is IOException or HttpRequestException or OperationCanceledException)
        {
            return Encoding.UTF8.GetString(read, 0, length);
        }

        return Encoding.UTF8.GetString(read, 0, length);
    }

    private async ValueTask<Stream> ConnectAsync(SocketsHttpConnectionContext context, CancellationToken cancel)
    {
        var host = context.DnsEndPoint.Host;
        var found = IPAddress.TryParse(host.Trim('[', ']'), out var given) ? [given] : await LookUpAsync(host, cancel);
        var addresses = found.Where(a => _hosts.Lets(host, a)).ToArray();
        if (addresses.Length == 0)
        {
            throw new HttpRequestException(found.Length == 0 ? $"The name {host} is not known." : NotPublic(host));
        }

        // By address, not by name: the name could stand for another one by now.
        var socket = new Socket(SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
        try
        {
            await socket.ConnectAsync(addresses, context.DnsEndPoint.Port, cancel);
            return new NetworkStream(socket, ownsSocket: true);
        }
        catch (SocketException e)
        {
            socket.Dispose();
            throw new HttpRequestException($"There is no connection to {host}:{context.DnsEndPoint.Port}: {e.Message.TrimEnd('.')}.", e);
        }
        catch
        {
            socket.Dispose();
            throw;
        }
    }

    private async Task<IPAddress[]> LookUpAsync(string host, CancellationToken cancel)
    {
        try
        {
            return await _lookup(host, cancel);
        }
        catch (SocketException e)
        {
            throw new HttpRequestException($"The name {host} could not be looked up: {e.Message.TrimEnd('.')}.", e);
        }
    }

    private static string NotPublic(string host) =>
        $"{host} is in a private network, where no messages go unless the setting Exchange:AllowedHosts names it.";

    private static string Trouble(HttpRequestException e, Uri address) => e.HttpRequestError switch
    {
        HttpRequestError.SecureConnectionError =>
            $"No secure connection to {address.Authority} could be made; is its certificate valid? {(e.InnerException ?? e).Message}",
        HttpRequestError.InvalidResponse or HttpRequestError.ResponseEnded => $"{address.Authority} did not answer as HTTP: {e.Message}",
        _ => e.InnerException is HttpRequestException ours ? ours.Message : e.Message,
    };
}

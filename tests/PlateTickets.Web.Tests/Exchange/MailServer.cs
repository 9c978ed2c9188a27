using System.Buffers;
using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using MimeKit;
using SmtpServer;
using SmtpServer.ComponentModel;
using SmtpServer.Mail;
using SmtpServer.Protocol;
using SmtpServer.Storage;

namespace PlateTickets.Web.Tests.Exchange;

/// <summary>A mail server on a port of this machine: the library SmtpServer 11.1.0, which is not ours.</summary>
internal sealed class MailServer : IAsyncDisposable
{
    private readonly CancellationTokenSource _stop = new();
    private readonly Store _store = new();
    private readonly Filter _filter = new();
    private readonly Task _running;

    private MailServer(int port)
    {
        Port = port;
        var services = new ServiceProvider();
        services.Add((IMessageStore)_store);
        services.Add((IMailboxFilter)_filter);
        var options = new SmtpServerOptionsBuilder().ServerName("localhost").Endpoint(e => e.Endpoint(new IPEndPoint(IPAddress.Loopback, port))).Build();
        _running = new SmtpServer.SmtpServer(options, services).StartAsync(_stop.Token);
    }

    public int Port { get; }

    public IReadOnlyList<MimeMessage> Mails => [.. _store.Mails];

    /// <summary>The bytes as they came.</summary>
    public IReadOnlyList<string> Texts => [.. _store.Texts];

    /// <summary>What it answers to a recipient; null takes the mail.</summary>
    public SmtpResponse? Recipient { set => _filter.Answer = value; }

    public static MailServer Start()
    {
        using var free = new TcpListener(IPAddress.Loopback, 0);
        free.Start();
        var port = ((IPEndPoint)free.LocalEndpoint).Port;
        free.Stop();
        return new MailServer(port);
    }

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await _running;
        _stop.Dispose();
    }

    private sealed class Store : MessageStore
    {
        public ConcurrentQueue<MimeMessage> Mails { get; } = [];

        public ConcurrentQueue<string> Texts { get; } = [];

        public override async Task<SmtpResponse> SaveAsync(ISessionContext context, IMessageTransaction transaction, ReadOnlySequence<byte> buffer, CancellationToken cancellationToken)
        {
            using var bytes = new MemoryStream(buffer.ToArray());
            Texts.Enqueue(System.Text.Encoding.UTF8.GetString(bytes.ToArray()));
            Mails.Enqueue(await MimeMessage.LoadAsync(bytes, cancellationToken));
            return SmtpResponse.Ok;
        }
    }

    private sealed class Filter : MailboxFilter
    {
        public SmtpResponse? Answer { get; set; }

        public override Task<bool> CanDeliverToAsync(ISessionContext context, IMailbox to, IMailbox from, CancellationToken cancellationToken) =>
            Answer is { } answer ? throw new SmtpResponseException(answer) : Task.FromResult(true);
    }
}

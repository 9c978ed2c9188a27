using System.Net;
using System.Net.Sockets;

namespace PlateTickets.Web.Tests;

/// <summary>A wire between the program and its PostgreSQL server that carries every piece late, or for a while nothing at all.</summary>
internal sealed class SlowWire : IDisposable
{
    private readonly string _socket;
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly CancellationTokenSource _end = new();
    private volatile TaskCompletionSource _flows = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <param name="socket">The server's socket.</param>
    public SlowWire(string socket)
    {
        _socket = socket;
        _flows.SetResult();
        _listener.Start();
        _ = AcceptAsync();
    }

    public int Port => ((IPEndPoint)_listener.LocalEndpoint).Port;

    /// <summary>By which each piece comes late, in either direction.</summary>
    public TimeSpan Delay { get; set; }

    /// <summary>From now on nothing comes through, until it is let.</summary>
    public void Hold() => _flows = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);

    public void Let() => _flows.TrySetResult();

    public void Dispose()
    {
        _end.Cancel();
        Let();
        _listener.Dispose();
        _end.Dispose();
    }

    private async Task AcceptAsync()
    {
        try
        {
            while (true)
            {
                var near = await _listener.AcceptSocketAsync(_end.Token);
                _ = CarryBothAsync(near);
            }
        }
        catch (Exception e) when (e is OperationCanceledException or SocketException or ObjectDisposedException)
        {
            // The test is over.
        }
    }

    private async Task CarryBothAsync(Socket near)
    {
        using var far = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        using (near)
        {
            near.NoDelay = true;
            await far.ConnectAsync(new UnixDomainSocketEndPoint(_socket));
            // Who hangs up on one side hangs up on the other.
            await Task.WhenAny(CarryAsync(near, far), CarryAsync(far, near));
        }
    }

    private async Task CarryAsync(Socket from, Socket to)
    {
        var piece = new byte[64 * 1024];
        try
        {
            for (int got; (got = await from.ReceiveAsync(piece, _end.Token)) > 0;)
            {
                await Task.Delay(Delay, _end.Token);
                await _flows.Task;
                for (var sent = 0; sent < got;)
                {
                    sent += await to.SendAsync(piece.AsMemory(sent, got - sent), _end.Token);
                }
            }
        }
        catch (Exception e) when (e is OperationCanceledException or SocketException or ObjectDisposedException)
        {
            // One of the two hung up, or the test is over.
        }
    }
}

using System.Buffers;
using System.Diagnostics.CodeAnalysis;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.SignalR;
using Microsoft.AspNetCore.SignalR.Protocol;

namespace PlateTickets.Benchmarks.Boards;

/// <summary>A circuit speaks MessagePack as SignalR does, under a name of its own.</summary>
internal sealed class CircuitProtocol : IHubProtocol
{
    private readonly MessagePackHubProtocol _inner = new();

    public string Name => "blazorpack";

    public int Version => 1;

    public TransferFormat TransferFormat => TransferFormat.Binary;

    public bool IsVersionSupported(int version) => version <= Version;

    public ReadOnlyMemory<byte> GetMessageBytes(HubMessage message) => _inner.GetMessageBytes(message);

    public void WriteMessage(HubMessage message, IBufferWriter<byte> output) => _inner.WriteMessage(message, output);

    public bool TryParseMessage(ref ReadOnlySequence<byte> input, IInvocationBinder binder, [NotNullWhen(true)] out HubMessage? message) =>
        _inner.TryParseMessage(ref input, binder, out message);
}

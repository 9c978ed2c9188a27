using System.Buffers;
using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace PlateTickets.Tickets.Accounts.Audit;

/// <summary>
/// The chain's arithmetic: SHA-256 over a form number, the hash before, id, microseconds since 1970 and the six texts, each with its length
/// before it, so that no two contents look the same. Big endian; a text that is missing has length -1. Not for two threads at once.
/// </summary>
internal sealed class AuditHasher
{
    private const byte Form = 1;

    private readonly ArrayBufferWriter<byte> _content = new(1024);

    /// <summary>The hash before the first entry.</summary>
    public static byte[] Start => new byte[SHA256.HashSizeInBytes];

    public byte[] Next(ReadOnlySpan<byte> before, AuditEntry entry)
    {
        _content.ResetWrittenCount();
        _content.Write([Form]);
        _content.Write(before);
        Number(entry.Id);
        Number((entry.AtUtc.Ticks - DateTime.UnixEpoch.Ticks) / TimeSpan.TicksPerMicrosecond);
        Text(entry.By);
        Text(entry.Record);
        Text(entry.Key);
        Text(entry.Field);
        Text(entry.From);
        Text(entry.To);
        return SHA256.HashData(_content.WrittenSpan);
    }

    private void Number(long value)
    {
        BinaryPrimitives.WriteInt64BigEndian(_content.GetSpan(sizeof(long)), value);
        _content.Advance(sizeof(long));
    }

    private void Text(string? text)
    {
        var length = text is null ? -1 : Encoding.UTF8.GetByteCount(text);
        BinaryPrimitives.WriteInt32BigEndian(_content.GetSpan(sizeof(int)), length);
        _content.Advance(sizeof(int));
        if (length > 0)
        {
            _content.Advance(Encoding.UTF8.GetBytes(text, _content.GetSpan(length)));
        }
    }
}

using Microsoft.Extensions.Options;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Exchange.Messages;
using PlateTickets.Tickets.Exchange.Xjdf;

namespace PlateTickets.Web.Exchange.Documents;

/// <summary>Takes what came through any door, whatever it is: an XJDF, an XJMF, or a zip package with either, told apart by what it holds.</summary>
internal sealed class DocumentDoorway(XjmfDesk desk, DocumentShelf shelf, IOptions<DocumentOptions> options)
{
    private const int StartBytes = 4;

    /// <summary>The answer as XJMF; what a sender did wrong is in it.</summary>
    /// <param name="body">Read once, to its end.</param>
    /// <param name="caller">Who sends it.</param>
    /// <param name="only">The only message that this address takes; null for all.</param>
    /// <param name="cancel">Cancels.</param>
    public async Task<byte[]> AnswerAsync(Stream body, XjmfCaller caller, string? only, CancellationToken cancel)
    {
        try
        {
            var start = new byte[StartBytes];
            var got = await body.ReadAtLeastAsync(start, StartBytes, throwOnEndOfStream: false, cancel);
            var whole = new PrefixedStream(start.AsMemory(0, got), body);
            return XjmfText.Bytes(DocumentPackage.IsZip(start.AsSpan(0, got))
                ? await PackageAsync(whole, caller, only, cancel)
                : await TextAsync(await BytesAsync(whole, cancel), null, caller, only, cancel));
        }
        catch (DocumentRefusedException refused)
        {
            return XjmfText.Bytes(desk.Refused(refused));
        }
    }

    private async Task<System.Xml.Linq.XDocument> PackageAsync(Stream body, XjmfCaller caller, string? only, CancellationToken cancel)
    {
        // A zip's directory stands at its end: it lies on disk while it is read.
        var draft = shelf.Draft();
        DocumentPackage package;
        try
        {
            await CopyAsync(body, draft, options.Value.LongestPackage, cancel);
            draft.Position = 0;
            package = DocumentPackage.Open(draft);
        }
        catch
        {
            await draft.DisposeAsync();
            throw;
        }

        using (package)
        {
            var inside = package.Message ?? package.OnlyDocument
                ?? throw new DocumentRefusedException(ReturnCodes.General, $"The package holds no {XjdfNames.RootMessage} at its root, and not exactly one .xjdf document.");
            return await TextAsync(await package.ReadAsync(inside, cancel), package, caller, only, cancel);
        }
    }

    private async Task<System.Xml.Linq.XDocument> TextAsync(byte[] bytes, DocumentPackage? package, XjmfCaller caller, string? only, CancellationToken cancel)
    {
        if (bytes.AsSpan().TrimStart(" \t\r\n"u8).StartsWith("{"u8))
        {
            throw new DocumentRefusedException(ReturnCodes.Parser, "This is JSON. XJDF and XJMF are read here as XML.");
        }

        return SafeXml.Read(bytes).Root!.Name.LocalName == "XJMF"
            ? await desk.AnswerAsync(bytes, package, caller, only, cancel)
            : only is null or "CommandSubmitQueueEntry"
            ? await desk.SubmitAsync(bytes, package, caller, cancel)
            : throw new DocumentRefusedException(ReturnCodes.Validation, $"This address takes {only} in an XJMF.");
    }

    private static async Task<byte[]> BytesAsync(Stream body, CancellationToken cancel)
    {
        using var bytes = new MemoryStream();
        await CopyAsync(body, bytes, SafeXml.MostBytes, cancel);
        return bytes.ToArray();
    }

    private static async Task CopyAsync(Stream from, Stream to, long most, CancellationToken cancel)
    {
        var buffer = new byte[128 * 1024];
        var length = 0L;
        for (int got; (got = await from.ReadAsync(buffer, cancel)) > 0;)
        {
            length += got;
            if (length > most)
            {
                throw new DocumentRefusedException(ReturnCodes.General, $"What came is longer than {most >> 20} MiB. Send files apart from the document, or have the limit raised.");
            }

            await to.WriteAsync(buffer.AsMemory(0, got), cancel);
        }
    }

    /// <summary>The bytes that were looked at, and then the rest.</summary>
    private sealed class PrefixedStream(ReadOnlyMemory<byte> start, Stream rest) : Stream
    {
        private ReadOnlyMemory<byte> _start = start;

        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

        public override async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default)
        {
            if (_start.IsEmpty)
            {
                return await rest.ReadAsync(buffer, cancellationToken);
            }

            var got = Math.Min(buffer.Length, _start.Length);
            _start[..got].CopyTo(buffer);
            _start = _start[got..];
            return got;
        }

        public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        public override void Flush()
        {
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}

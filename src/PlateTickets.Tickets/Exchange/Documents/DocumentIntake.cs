using PlateTickets.Tickets.Exchange.Xjdf;

namespace PlateTickets.Tickets.Exchange.Documents;

/// <summary>Takes a document with the files of its package: what it names goes onto the shelf first, then it is decided on.</summary>
public sealed class DocumentIntake(DocumentDesk desk, DocumentShelf shelf, long mostUnpackedBytes)
{
    /// <param name="arrival">The document; its files are taken out of the package here.</param>
    /// <param name="package">What it came in; null when it came alone.</param>
    /// <param name="cancel">Cancels.</param>
    /// <exception cref="DocumentRefusedException">It is no order; nothing of it is kept.</exception>
    public async Task<DocumentOutcome> TakeAsync(DocumentArrival arrival, DocumentPackage? package, CancellationToken cancel = default)
    {
        if (package is null)
        {
            return await desk.TakeAsync(arrival, cancel);
        }

        var parts = new List<ArrivedPart>();
        try
        {
            var left = mostUnpackedBytes;
            foreach (var url in UrlsOf(arrival.Xjdf))
            {
                if (package.Find(url) is not { } entry || entry.EndsWith(".xjdf", StringComparison.OrdinalIgnoreCase))
                {
                    continue;
                }

                await using var content = package.Open(entry);
                var (sha256, bytes) = await KeepAsync(content, left, cancel);
                left -= bytes;
                parts.Add(new ArrivedPart(url, Path.GetFileName(entry), sha256, bytes));
            }

            return await desk.TakeAsync(arrival with { Files = parts }, cancel);
        }
        finally
        {
            // Of a document that was refused, or came before, nobody needs the files.
            await desk.ForgetUnusedAsync([.. parts.Select(p => p.Sha256)], CancellationToken.None);
        }
    }

    private async Task<(string Sha256, long Bytes)> KeepAsync(Stream content, long most, CancellationToken cancel)
    {
        try
        {
            return await shelf.KeepAsync(content, most, cancel);
        }
        catch (InvalidDataException)
        {
            throw new DocumentRefusedException(ReturnCodes.Parser, "The package is damaged: one of its files cannot be unpacked.");
        }
    }

    // A change in part is no whole order yet, and brings its files all the same.
    private static IEnumerable<string> UrlsOf(byte[] xjdf) => SafeXml.Read(xjdf).Descendants(XjdfNames.Ns + "FileSpec")
        .Where(f => f.Parent?.Name == XjdfNames.Ns + "RunList").Select(f => f.Attribute("URL")?.Value ?? "").Where(u => u.Length > 0).Distinct();
}

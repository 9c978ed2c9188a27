using System.Globalization;

namespace PlateTickets.Tickets.Accounts.Audit;

/// <summary>The trail as CSV: one entry a row with its hash, so that a copy that was sent away can be compared.</summary>
public static class AuditCsv
{
    private const int PieceRows = 500;

    public static async Task WriteAsync(TextWriter text, IAsyncEnumerable<AuditEntry> entries, CancellationToken cancel = default)
    {
        // Row by row into memory and from there in pieces: a response takes no writing that blocks.
        await using var piece = new StringWriter(CultureInfo.InvariantCulture);
        await using var csv = new Csv(piece);
        csv.Row("number", "time (UTC)", "who", "record", "key", "field", "from", "to", "sha256");
        var written = 0;
        await foreach (var entry in entries.WithCancellation(cancel))
        {
            csv.Row(
                entry.Id.ToString(CultureInfo.InvariantCulture), entry.AtUtc.ToString("yyyy-MM-ddTHH:mm:ss.ffffffZ", CultureInfo.InvariantCulture), entry.By,
                entry.Record, entry.Key, entry.Field, entry.From ?? "", entry.To ?? "", Convert.ToHexStringLower(entry.Hash));
            if (++written % PieceRows == 0)
            {
                await SendAsync();
            }
        }

        await SendAsync();

        async Task SendAsync()
        {
            await csv.FlushAsync();
            await text.WriteAsync(piece.GetStringBuilder(), cancel);
            await text.FlushAsync(cancel);
            piece.GetStringBuilder().Clear();
        }
    }
}

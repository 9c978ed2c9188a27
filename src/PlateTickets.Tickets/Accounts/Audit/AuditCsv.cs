using System.Globalization;

namespace PlateTickets.Tickets.Accounts.Audit;

/// <summary>The trail as CSV: one entry a row with its hash, so that a copy that was sent away can be compared.</summary>
public static class AuditCsv
{
    private const int FlushEvery = 500;

    public static async Task WriteAsync(TextWriter text, IAsyncEnumerable<AuditEntry> entries, CancellationToken cancel = default)
    {
        await using var csv = new Csv(text);
        csv.Row("number", "time (UTC)", "who", "record", "key", "field", "from", "to", "sha256");
        var written = 0;
        await foreach (var entry in entries.WithCancellation(cancel))
        {
            csv.Row(
                entry.Id.ToString(CultureInfo.InvariantCulture), entry.AtUtc.ToString("yyyy-MM-ddTHH:mm:ss.ffffffZ", CultureInfo.InvariantCulture), entry.By,
                entry.Record, entry.Key, entry.Field, entry.From ?? "", entry.To ?? "", Convert.ToHexStringLower(entry.Hash));
            if (++written % FlushEvery == 0)
            {
                await csv.FlushAsync();
            }
        }

        await csv.FlushAsync();
    }
}

using System.Globalization;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Accounts.Audit;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Web.Audit;

/// <summary>What was typed into the search of the trail, on the page or in the address of the export.</summary>
public sealed class AuditAsk
{
    public string? Who { get; set; }

    /// <summary>The kind of record, such as "Order".</summary>
    public string? Record { get; set; }

    /// <summary>A number or name of a record; tracking numbers also with spaces.</summary>
    public string? Key { get; set; }

    /// <summary>A field as the page or the trail calls it.</summary>
    public string? Field { get; set; }

    public string? Text { get; set; }

    /// <summary>The search for the database.</summary>
    /// <param name="fromUtc">Included.</param>
    /// <param name="toUtc">Not included.</param>
    /// <param name="fields">Fields and happenings that the trail knows.</param>
    public AuditFilter Filter(DateTime? fromUtc, DateTime? toUtc, IReadOnlyCollection<string> fields) => new(
        Given(Who), Given(Record), Given(Key) is { } key ? [key, .. Other(key)] : null, Given(Field) is { } field ? Fields(field, fields) : null, Given(Text), fromUtc, toUtc);

    private static IEnumerable<string> Other(string key) => TrackingNumber.Read(key).Number is { } number && number != key ? [number] : [];

    private static string[] Fields(string field, IReadOnlyCollection<string> known)
    {
        var same = known.Where(k => k.Equals(field, StringComparison.OrdinalIgnoreCase) || AuditText.FieldName(k).Equals(field, StringComparison.OrdinalIgnoreCase)).ToArray();
        return same.Length > 0 ? same : [field, string.Create(CultureInfo.InvariantCulture, $"({field})"), field.ToLowerInvariant() switch { "added" => AuditEntry.New, _ => field }];
    }

    private static string? Given(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();
}

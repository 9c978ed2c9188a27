using System.Globalization;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Accounts;

/// <summary>Adds who, when, from what to what for every change of an audited record, and counts up versions.</summary>
internal static class AuditTrail
{
    // A sheet's state follows from its scans, which are a record of their own.
    private static readonly HashSet<string> ProjectedSheetFields =
        [nameof(Sheet.State), nameof(Sheet.CurrentStation), nameof(Sheet.DoneUtc), nameof(Sheet.Version)];

    public static void Write(PlateRoomDb db)
    {
        db.ChangeTracker.DetectChanges();
        var now = db.Clock.GetUtcNow().UtcDateTime;
        foreach (var entry in db.ChangeTracker.Entries().ToList())
        {
            if (entry.State == EntityState.Modified && entry.Entity is IVersioned versioned)
            {
                versioned.Version++;
            }

            if (entry.State is EntityState.Added or EntityState.Modified && entry.Entity is IAudited audited)
            {
                db.AuditEntries.AddRange(Changes(entry, audited, db.ActingAs, now));
            }
        }
    }

    private static IEnumerable<AuditEntry> Changes(EntityEntry entry, IAudited audited, string by, DateTime now)
    {
        var record = entry.Metadata.ClrType.Name;
        if (entry.State == EntityState.Added)
        {
            yield return New("(new)", null, null);
            yield break;
        }

        foreach (var field in entry.Properties)
        {
            var name = field.Metadata.Name;
            if (!field.IsModified || Kept<UnauditedAttribute>(field) || name == nameof(IVersioned.Version) || (entry.Entity is Sheet && ProjectedSheetFields.Contains(name)))
            {
                continue;
            }

            yield return Kept<SecretAttribute>(field)
                ? New(name, Hidden(field.OriginalValue), Hidden(field.CurrentValue))
                : New(name, Text(field.OriginalValue), Text(field.CurrentValue));
        }

        AuditEntry New(string field, string? from, string? to) =>
            new() { AtUtc = now, By = by, Record = record, Key = audited.AuditKey, Field = field, From = from, To = to };
    }

    private static bool Kept<T>(PropertyEntry field)
        where T : Attribute =>
        field.Metadata.PropertyInfo?.IsDefined(typeof(T), inherit: true) == true;

    private static string? Hidden(object? value) => value is null ? null : "(secret)";

    private static string? Text(object? value) => value switch
    {
        null => null,
        string text => text,
        DateTime time => time.ToString("O", CultureInfo.InvariantCulture),
        IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
        _ => JsonSerializer.Serialize(value),
    };
}

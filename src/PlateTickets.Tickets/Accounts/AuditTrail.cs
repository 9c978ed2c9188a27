using System.Collections.Concurrent;
using System.Globalization;
using System.Reflection;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata;

namespace PlateTickets.Tickets.Accounts;

/// <summary>One thing to be written once the changes are saved: only then has a new record its id.</summary>
internal sealed record AuditChange(string By, string Record, Func<string> Key, string Field, string? From, string? To);

/// <summary>Reads from a context what is about to be saved: from what to what for every audited record, and counts up versions.</summary>
internal static class AuditTrail
{
    private static readonly ConcurrentDictionary<MemberInfo, (bool Secret, bool Left)> Marks = [];

    /// <summary>What is about to be saved. Changes must be detected already.</summary>
    public static List<AuditChange> Of(PlateRoomDb db)
    {
        var changes = new List<AuditChange>();
        foreach (var entry in db.ChangeTracker.Entries().ToList())
        {
            if (entry.State == EntityState.Modified && entry.Entity is IVersioned versioned)
            {
                entry.Property(nameof(IVersioned.Version)).CurrentValue = versioned.Version + 1;
            }

            if (entry.State is EntityState.Added or EntityState.Modified or EntityState.Deleted)
            {
                changes.AddRange(entry.Entity is IAudited audited ? ChangesOf(entry, audited, db.WhoActsOn(audited)) : entry.Metadata.IsOwned() ? PartChanges(db, entry) : []);
            }
        }

        return changes;
    }

    public static IEnumerable<AuditChange> ChangesOf(EntityEntry entry, IAudited audited, string by)
    {
        var record = entry.Metadata.ClrType.Name;
        var known = entry.State == EntityState.Added ? null : audited.AuditKey;
        return entry.State switch
        {
            EntityState.Added => [new(by, record, () => audited.AuditKey, AuditEntry.New, null, null)],
            EntityState.Deleted => [new(by, record, () => known!, AuditEntry.Deleted, Whole(entry), null)],
            _ => Fields(entry).Select(f => new AuditChange(by, record, () => known!, f.Name, f.From, f.To)),
        };
    }

    // A part that lies in its owner's row, such as a break in its shift: the owner's field, with the part's name before it.
    private static IEnumerable<AuditChange> PartChanges(PlateRoomDb db, EntityEntry part)
    {
        var (owner, name) = OwnerOf(db, part);
        if (owner is not { State: EntityState.Unchanged or EntityState.Modified, Entity: IAudited audited })
        {
            return [];
        }

        var (by, record, key) = (db.WhoActsOn(audited), owner.Metadata.ClrType.Name, audited.AuditKey);
        return part.State switch
        {
            EntityState.Added => [new(by, record, () => key, name, null, Whole(part))],
            EntityState.Deleted => [new(by, record, () => key, name, Whole(part), null)],
            _ => Fields(part).Select(f => new AuditChange(by, record, () => key, $"{name}.{f.Name}", f.From, f.To)),
        };
    }

    private static (EntityEntry? Owner, string Name) OwnerOf(PlateRoomDb db, EntityEntry part)
    {
        var link = part.Metadata.FindOwnership()!;
        var key = link.Properties.Select(p => part.Property(p).CurrentValue).ToList();
        var owner = db.ChangeTracker.Entries().FirstOrDefault(e =>
            e.Metadata == link.PrincipalEntityType && link.PrincipalKey.Properties.Select(p => e.Property(p).CurrentValue).SequenceEqual(key));
        return (owner, link.PrincipalToDependent?.Name ?? part.Metadata.ClrType.Name);
    }

    private static IEnumerable<(string Name, string? From, string? To)> Fields(EntityEntry entry)
    {
        foreach (var field in entry.Properties.Where(f => f.IsModified && IsKept(f.Metadata)))
        {
            var (from, to) = MarkOf(field.Metadata).Secret
                ? (Hidden(field.OriginalValue), Hidden(field.CurrentValue))
                : (Text(field.OriginalValue), Text(field.CurrentValue));
            yield return (field.Metadata.Name, from, to);
        }
    }

    private static string Whole(EntityEntry entry) => JsonSerializer.Serialize(entry.Properties
        .Where(f => IsKept(f.Metadata) && !f.Metadata.IsShadowProperty() && f.OriginalValue is not null)
        .ToDictionary(f => f.Metadata.Name, f => MarkOf(f.Metadata).Secret ? AuditEntry.Secret : Text(f.OriginalValue)));

    private static bool IsKept(IProperty property) => property.Name != nameof(IVersioned.Version) && !MarkOf(property).Left;

    private static (bool Secret, bool Left) MarkOf(IProperty property) => property.PropertyInfo is { } member
        ? Marks.GetOrAdd(member, static m => (m.IsDefined(typeof(SecretAttribute)), m.IsDefined(typeof(NotAuditedAttribute))))
        : default;

    private static string? Hidden(object? value) => value is null or "" ? null : AuditEntry.Secret;

    private static string? Text(object? value) => value switch
    {
        null => null,
        string text => text,
        DateTime time => time.ToString("O", CultureInfo.InvariantCulture),
        byte[] bytes => Convert.ToHexStringLower(bytes),
        IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
        _ => JsonSerializer.Serialize(value),
    };
}

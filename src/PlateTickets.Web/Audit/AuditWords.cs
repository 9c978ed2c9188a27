using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Audit;

/// <summary>The kinds of records that the trail knows, and their fields: what the search offers.</summary>
public sealed class AuditWords
{
    public AuditWords(IDbContextFactory<PlateRoomDb> databases)
    {
        using var db = databases.CreateDbContext();
        var types = db.Model.GetEntityTypes().Where(t => typeof(IAudited).IsAssignableFrom(t.ClrType)).ToList();
        Named = types.SelectMany(t => t.GetProperties()).Where(p => (Nullable.GetUnderlyingType(p.ClrType) ?? p.ClrType).IsEnum).Select(p => p.Name).ToHashSet();
        Records = [.. types.Select(t => t.ClrType.Name).Append("Backup").Order(StringComparer.Ordinal)];
        Fields = [.. types.SelectMany(t => t.GetProperties()).Where(p => !p.IsShadowProperty() && !p.IsPrimaryKey()).Select(p => p.Name).Distinct().Order(StringComparer.Ordinal)];
    }

    /// <summary>Fields with a choice of named values.</summary>
    public IReadOnlySet<string> Named { get; }

    public IReadOnlyList<string> Records { get; }

    public IReadOnlyList<string> Fields { get; }
}

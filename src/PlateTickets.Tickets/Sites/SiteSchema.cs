using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Sites;

/// <summary>The tables of a site among those of its group.</summary>
public static class SiteSchema
{
    /// <summary>
    /// What a site keeps of people points to the accounts of the group. The migrations, which know of one room only, made it point to the site's own
    /// table of accounts, which stays empty.
    /// </summary>
    public static async Task PointToPeopleAsync(PlateRoomDb db, SiteKey site, CancellationToken cancel = default)
    {
        var accounts = db.Model.FindEntityType(typeof(Account))!;
        var foreign = db.Model.GetEntityTypes().Where(e => e.GetSchema() is null).SelectMany(e => e.GetForeignKeys()).Where(k => k.PrincipalEntityType == accounts);
        foreach (var key in foreign)
        {
            var (table, name) = (key.DeclaringEntityType.GetTableName(), key.GetConstraintName());
            var elsewhere = await db.Database.SqlQuery<bool>(
                $"""
                SELECT EXISTS (
                  SELECT 1 FROM pg_constraint c JOIN pg_namespace n ON n.oid = c.connamespace JOIN pg_class t ON t.oid = c.confrelid JOIN pg_namespace p ON p.oid = t.relnamespace
                  WHERE n.nspname = {site.Value} AND c.conname = {name} AND p.nspname <> {SiteKey.People}) AS "Value"
                """).SingleAsync(cancel);
            if (elsewhere)
            {
                var column = key.Properties.Single().GetColumnName();
                var sql = $"""
                    ALTER TABLE "{table}" DROP CONSTRAINT "{name}",
                      ADD CONSTRAINT "{name}" FOREIGN KEY ("{column}") REFERENCES "{SiteKey.People}"."{accounts.GetTableName()}" ("Id") ON DELETE RESTRICT
                    """;
                await db.Database.ExecuteSqlRawAsync(sql, cancel);
            }
        }
    }
}

using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Database;

namespace PlateTickets.Tickets.Orders;

/// <summary>Customers by name: who types one does not think of its capitals. SQLite knows those of the letters A to Z only.</summary>
public static class CustomerNames
{
    /// <summary>Those whose name has this in it.</summary>
    public static IQueryable<Customer> WithInName(this IQueryable<Customer> customers, string part)
    {
        // PostgreSQL tells capitals from small letters, SQLite does not, but makes no small letter of an umlaut: one of the two finds it.
        var (like, small) = (LikePattern.Holding(part), LikePattern.Holding(part.ToLowerInvariant()));
        return customers.Where(c => EF.Functions.Like(c.Name, like, "\\") || EF.Functions.Like(c.Name.ToLower(), small, "\\"));
    }

    /// <summary>Those with one of these ids or names.</summary>
    public static IQueryable<Customer> OfIdsAndNames(this IQueryable<Customer> customers, IReadOnlyCollection<int> ids, IReadOnlyCollection<string> names)
    {
        var small = names.Select(n => n.ToLowerInvariant()).ToList();
        return customers.Where(c => ids.Contains(c.Id) || names.Contains(c.Name) || small.Contains(c.Name.ToLower()));
    }

    /// <summary>The one of this name, before one that differs from it by capitals only.</summary>
    public static Customer? Called(this IReadOnlyCollection<Customer> customers, string name) =>
        customers.FirstOrDefault(c => c.Name == name) ?? customers.FirstOrDefault(c => c.Name.Equals(name, StringComparison.OrdinalIgnoreCase));
}

using System.Xml.Linq;
using Microsoft.AspNetCore.DataProtection.Repositories;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Startup.Nodes;

/// <summary>Keeps the keys of the cookies in the database, so that who signed in at one node is known at all.</summary>
internal sealed class DatabaseKeys(IDbContextFactory<PlateRoomDb> databases) : IXmlRepository
{
    public IReadOnlyCollection<XElement> GetAllElements()
    {
        using var db = databases.CreateDbContext();
        return [.. db.ProtectionKeys.AsNoTracking().OrderBy(k => k.Id).Select(k => k.Xml).ToList().Select(xml => XElement.Parse(xml))];
    }

    // The interface of the framework waits for its answer; it is asked once in ninety days.
    public void StoreElement(XElement element, string friendlyName) => Task.Run(async () =>
    {
        await using var db = await databases.CreateDbContextAsync();
        db.ProtectionKeys.Add(new ProtectionKey { Name = friendlyName, Xml = element.ToString(SaveOptions.DisableFormatting) });
        await db.SaveChangesAsync();
    }).GetAwaiter().GetResult();
}

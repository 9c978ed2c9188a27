using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Database;

namespace PlateTickets.Web.Startup;

/// <summary>Opens the room's database, whichever it is.</summary>
internal static class RoomDatabase
{

    public static void Use(DbContextOptionsBuilder options, DatabaseOptions database, DataFolder folder)
    {
        if (database.Provider == DatabaseKind.PostgreSql)
        {
            options.UseNpgsql(database.ConnectionString, postgre => postgre.MigrationsAssembly("PlateTickets.Migrations.PostgreSql"));
        }
        else
        {
            options.UseSqlite($"Data Source={folder.Database}", sqlite => sqlite.MigrationsAssembly("PlateTickets.Migrations.Sqlite")).AddInterceptors(new SqliteDurability());
        }
    }

    /// <summary>Brings the database to this version. Of several nodes that start at once one does it, the others wait.</summary>
    public static Task MigrateAsync(PlateRoomDb db) => db.Database.MigrateAsync();
}

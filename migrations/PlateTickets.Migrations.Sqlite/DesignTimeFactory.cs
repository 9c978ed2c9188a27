using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using PlateTickets.Tickets;

namespace PlateTickets.Migrations.Sqlite;

/// <summary>Lets the migration tool build the model without starting the program.</summary>
public sealed class DesignTimeFactory : IDesignTimeDbContextFactory<PlateRoomDb>
{
    public PlateRoomDb CreateDbContext(string[] args) => new(
        new DbContextOptionsBuilder<PlateRoomDb>()
            .UseSqlite("Data Source=design-time.db", sqlite => sqlite.MigrationsAssembly(typeof(DesignTimeFactory).Assembly.GetName().Name))
            .Options);
}

using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using PlateTickets.Tickets;

namespace PlateTickets.Migrations.PostgreSql;

/// <summary>Lets the migration tool build the model without starting the program.</summary>
public sealed class DesignTimeFactory : IDesignTimeDbContextFactory<PlateRoomDb>
{
    public PlateRoomDb CreateDbContext(string[] args) => new(
        new DbContextOptionsBuilder<PlateRoomDb>()
            .UseNpgsql("Host=design-time", postgre => postgre.MigrationsAssembly(typeof(DesignTimeFactory).Assembly.GetName().Name))
            .Options);
}

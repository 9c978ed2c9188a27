using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tickets.Sites;

namespace PlateTickets.Tickets.Database;

/// <summary>
/// Says that this room is one of several in its database: what belongs to the group lies in the schema <see cref="SiteKey.People"/>, all else in the
/// schema of the site, which is the connection's search path. One model serves all sites.
/// </summary>
public sealed class PeopleSchema : IDbContextOptionsExtension
{
    private DbContextOptionsExtensionInfo? _info;

    public DbContextOptionsExtensionInfo Info => _info ??= new Said(this);

    public static void Use(DbContextOptionsBuilder options) => ((IDbContextOptionsBuilderInfrastructure)options).AddOrUpdateExtension(new PeopleSchema());

    public void ApplyServices(IServiceCollection services)
    {
    }

    public void Validate(IDbContextOptions options)
    {
    }

    // Models are kept by the services behind the contexts: contexts with and without this must not share them.
    private sealed class Said(PeopleSchema extension) : DbContextOptionsExtensionInfo(extension)
    {
        public override bool IsDatabaseProvider => false;

        public override string LogFragment => "people in a schema of their own ";

        public override int GetServiceProviderHashCode() => nameof(PeopleSchema).Length;

        public override bool ShouldUseSameServiceProvider(DbContextOptionsExtensionInfo other) => other is Said;

        public override void PopulateDebugInfo(IDictionary<string, string> debugInfo) => debugInfo[nameof(PeopleSchema)] = "1";
    }
}

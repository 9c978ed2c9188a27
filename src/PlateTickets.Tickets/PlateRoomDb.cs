using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Arrivals;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stations.Duty;
using PlateTickets.Tickets.Stock;

namespace PlateTickets.Tickets;

/// <summary>The room's records. One context per operation, from the factory; never one per circuit.</summary>
public sealed class PlateRoomDb(DbContextOptions<PlateRoomDb> options) : IdentityUserContext<Account, int>(options)
{
    private static readonly Lazy<IServiceProvider> Alone = new(() => new ServiceCollection().Configure<IdentityOptions>(ChooseStores).BuildServiceProvider());

    public DbSet<Site> Sites => Set<Site>();

    public DbSet<Equipment> Equipment => Set<Equipment>();

    public DbSet<EquipmentDowntime> Downtimes => Set<EquipmentDowntime>();

    public DbSet<DutyChange> DutyChanges => Set<DutyChange>();

    public DbSet<Material> Materials => Set<Material>();

    public DbSet<RecipeRevision> RecipeRevisions => Set<RecipeRevision>();

    public DbSet<LampReadingEntry> LampReadings => Set<LampReadingEntry>();

    public DbSet<StepTestEntry> StepTests => Set<StepTestEntry>();

    public DbSet<StockSize> StockSizes => Set<StockSize>();

    public DbSet<StockLot> StockLots => Set<StockLot>();

    public DbSet<Remnant> Remnants => Set<Remnant>();

    public DbSet<Customer> Customers => Set<Customer>();

    public DbSet<Press> Presses => Set<Press>();

    public DbSet<Order> Orders => Set<Order>();

    public DbSet<Ticket> Tickets => Set<Ticket>();

    public DbSet<Separation> Separations => Set<Separation>();

    public DbSet<SeparationPreview> SeparationPreviews => Set<SeparationPreview>();

    public DbSet<ArrivedFile> ArrivedFiles => Set<ArrivedFile>();

    public DbSet<ArrivedPreview> ArrivedPreviews => Set<ArrivedPreview>();

    public DbSet<Plate> Plates => Set<Plate>();

    public DbSet<Sheet> Sheets => Set<Sheet>();

    public DbSet<SheetLayout> SheetLayouts => Set<SheetLayout>();

    public DbSet<Placement> Placements => Set<Placement>();

    public DbSet<Stage> Stages => Set<Stage>();

    public DbSet<Scan> Scans => Set<Scan>();

    public DbSet<NumberSequence> NumberSequences => Set<NumberSequence>();

    public DbSet<ApiKey> ApiKeys => Set<ApiKey>();

    public DbSet<Tablet> Tablets => Set<Tablet>();

    public DbSet<IdempotentCall> IdempotentCalls => Set<IdempotentCall>();

    public DbSet<AuditEntry> AuditEntries => Set<AuditEntry>();

    /// <summary>Who makes the changes of this context; the audit trail keeps it.</summary>
    public string ActingAs { get; set; } = "PlateTickets";

    /// <summary>The clock of the audit trail.</summary>
    public TimeProvider Clock { get; set; } = TimeProvider.System;

    public override async Task<int> SaveChangesAsync(bool acceptAllChangesOnSuccess, CancellationToken cancellationToken = default)
    {
        AuditTrail.Write(this);
        return await base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
    }

    public override int SaveChanges(bool acceptAllChangesOnSuccess)
    {
        AuditTrail.Write(this);
        return base.SaveChanges(acceptAllChangesOnSuccess);
    }

    /// <summary>How accounts are kept: with passkeys. The program says it too, for the stores.</summary>
    public static void ChooseStores(IdentityOptions options) => options.Stores.SchemaVersion = IdentitySchemaVersions.Version3;

    // Identity reads its version from the services around the context. The migration tool and the tests have none.
    protected override void OnConfiguring(DbContextOptionsBuilder optionsBuilder)
    {
        if (optionsBuilder.Options.FindExtension<CoreOptionsExtension>()?.ApplicationServiceProvider is null)
        {
            optionsBuilder.UseApplicationServiceProvider(Alone.Value);
        }
    }

    protected override void ConfigureConventions(ModelConfigurationBuilder configuration) => PlateRoomModel.Conventions(configuration);

    protected override void OnModelCreating(ModelBuilder builder)
    {
        base.OnModelCreating(builder);
        PlateRoomModel.Configure(builder);
    }
}

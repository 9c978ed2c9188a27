using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Arrivals;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stations.Duty;
using PlateTickets.Tickets.Stock;

namespace PlateTickets.Tickets;

/// <summary>The room's records. One context per operation, from the factory; never one per circuit.</summary>
public sealed class PlateRoomDb(DbContextOptions<PlateRoomDb> options) : DbContext(options)
{
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

    public DbSet<StageReading> StageReadings => Set<StageReading>();

    public DbSet<StageDecision> StageDecisions => Set<StageDecision>();

    public DbSet<Remake> Remakes => Set<Remake>();

    public DbSet<NumberSequence> NumberSequences => Set<NumberSequence>();

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

    protected override void ConfigureConventions(ModelConfigurationBuilder configuration) => PlateRoomModel.Conventions(configuration);

    protected override void OnModelCreating(ModelBuilder model) => PlateRoomModel.Configure(model);
}

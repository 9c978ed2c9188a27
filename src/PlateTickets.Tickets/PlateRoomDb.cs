using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Accounts.Audit;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Calendars;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Tickets.Exchange.Status;
using PlateTickets.Tickets.Handovers;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Arrivals;
using PlateTickets.Tickets.Orders.Search;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Sites;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stations.Duty;
using PlateTickets.Tickets.Stock;

namespace PlateTickets.Tickets;

/// <summary>The room's records. One context per operation, from the factory; never one per circuit.</summary>
public sealed class PlateRoomDb(DbContextOptions<PlateRoomDb> options) : IdentityUserContext<Account, int>(options)
{
    private static readonly Lazy<IServiceProvider> Alone = new(() => new ServiceCollection().Configure<IdentityOptions>(ChooseStores).BuildServiceProvider());
    private readonly List<AuditChange> _notes = [];
    private readonly Dictionary<object, string> _actors = new(ReferenceEqualityComparer.Instance);

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

    public DbSet<TicketText> TicketTexts => Set<TicketText>();

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

    public DbSet<ShiftGoal> ShiftGoals => Set<ShiftGoal>();

    public DbSet<CalendarFeed> CalendarFeeds => Set<CalendarFeed>();

    public DbSet<Handover> Handovers => Set<Handover>();

    public DbSet<ReceivedDocument> ReceivedDocuments => Set<ReceivedDocument>();

    public DbSet<DocumentText> DocumentTexts => Set<DocumentText>();

    public DbSet<DocumentFile> DocumentFiles => Set<DocumentFile>();

    public DbSet<KnownName> KnownNames => Set<KnownName>();

    public DbSet<TicketEvent> TicketEvents => Set<TicketEvent>();

    public DbSet<Delivery> Deliveries => Set<Delivery>();

    public DbSet<Webhook> Webhooks => Set<Webhook>();

    public DbSet<SignalChannel> SignalChannels => Set<SignalChannel>();

    public DbSet<StatusLink> StatusLinks => Set<StatusLink>();

    public DbSet<NumberSequence> NumberSequences => Set<NumberSequence>();

    public DbSet<ApiKey> ApiKeys => Set<ApiKey>();

    public DbSet<SiteRole> SiteRoles => Set<SiteRole>();

    public DbSet<SiteStanding> SiteStandings => Set<SiteStanding>();

    public DbSet<Tablet> Tablets => Set<Tablet>();

    public DbSet<IdempotentCall> IdempotentCalls => Set<IdempotentCall>();

    public DbSet<ProtectionKey> ProtectionKeys => Set<ProtectionKey>();

    public DbSet<AuditEntry> AuditEntries => Set<AuditEntry>();

    public DbSet<AuditHead> AuditHeads => Set<AuditHead>();

    /// <summary>Who makes the changes of this context; the audit trail keeps it.</summary>
    public string ActingAs { get; set; } = "PlateTickets";

    /// <summary>The clock of the audit trail: the program's, unless another is set.</summary>
    public TimeProvider Clock { get; set; } =
        options.FindExtension<CoreOptionsExtension>()?.ApplicationServiceProvider?.GetService(typeof(TimeProvider)) as TimeProvider ?? TimeProvider.System;

    /// <summary>Something that happened and is no change of a record: it is written with the next save, in the same transaction.</summary>
    /// <param name="record">The kind of thing, such as "Account".</param>
    /// <param name="key">Which one.</param>
    /// <param name="happened">What happened, as it goes on after the name of <see cref="ActingAs"/>: "printed the traveler of".</param>
    /// <param name="detail">More about it; never a secret.</param>
    public void Note(string record, string key, string happened, string? detail = null) => _notes.Add(new AuditChange(ActingAs, record, () => key, $"({happened})", null, detail));

    /// <summary>Says who changes these records, where it is not who <see cref="ActingAs"/> names: several people can be in one save. Until the next save.</summary>
    public void ActsOn(string by, params ReadOnlySpan<object> records)
    {
        foreach (var record in records)
        {
            _actors[record] = by;
        }
    }

    /// <summary>Who changes a record.</summary>
    internal string WhoActsOn(object record) => _actors.GetValueOrDefault(record, ActingAs);

    public override async Task<int> SaveChangesAsync(bool acceptAllChangesOnSuccess, CancellationToken cancellationToken = default)
    {
        // Every look at the tracked records would compare all their values again: once is enough, and not at all where detection is switched off.
        var detects = ChangeTracker.AutoDetectChangesEnabled;
        if (!ChangeTracker.HasChanges() && _notes.Count == 0)
        {
            return 0;
        }

        ChangeTracker.AutoDetectChangesEnabled = false;
        try
        {
            var saved = await SaveDetectedAsync(acceptAllChangesOnSuccess, cancellationToken);
            _actors.Clear();
            return saved;
        }
        finally
        {
            ChangeTracker.AutoDetectChangesEnabled = detects;
        }
    }

    /// <summary>Not for this context: the audit trail is written by <see cref="SaveChangesAsync(bool, CancellationToken)"/>.</summary>
    public override int SaveChanges(bool acceptAllChangesOnSuccess) => throw new NotSupportedException("Save with SaveChangesAsync: it writes the audit trail.");

    private async Task<int> SaveDetectedAsync(bool acceptAllChangesOnSuccess, CancellationToken cancellationToken)
    {
        var changes = AuditTrail.Of(this);
        var index = TicketIndex.Of(this);
        var happened = EventTrail.Of(this);
        if (changes.Count + _notes.Count == 0 && index is null && happened is null)
        {
            return await base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
        }

        await using var own = Database.CurrentTransaction is null ? await this.BeginWriteAsync(cancellationToken) : null;
        var saved = await base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
        if (index is not null)
        {
            await index.WriteAsync(this, cancellationToken);
        }

        if (happened is not null && await happened.WriteAsync(this, cancellationToken))
        {
            await base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
        }

        if (changes.Count + _notes.Count > 0)
        {
            var now = Clock.GetUtcNow().UtcDateTime;
            await AuditChain.AppendAsync(
                Database,
                [.. changes.Concat(_notes).Select(c => new AuditEntry { AtUtc = now, By = c.By, Record = c.Record, Key = c.Key(), Field = c.Field, From = c.From, To = c.To })],
                cancellationToken);
        }

        if (own is not null)
        {
            await own.CommitAsync(cancellationToken);
        }

        _notes.Clear();
        return saved;
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
        PlateRoomModel.Configure(builder, this.IsPostgreSql(), isOneOfSeveral: options.FindExtension<PeopleSchema>() is not null);
    }
}

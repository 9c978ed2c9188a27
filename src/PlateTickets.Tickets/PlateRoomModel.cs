using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Process.Distortion;
using PlateTickets.Process.Recipes;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Accounts.Audit;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Calendars;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Tickets.Exchange.Status;
using PlateTickets.Tickets.Handovers;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Arrivals;
using PlateTickets.Tickets.Orders.Search;
using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Sites;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stations.Duty;
using PlateTickets.Tickets.Stock;

namespace PlateTickets.Tickets;

/// <summary>How the records lie in the database; the same for every provider.</summary>
internal static class PlateRoomModel
{
    private static readonly JsonSerializerOptions Named = new() { Converters = { new JsonStringEnumConverter() } };

    public static void Conventions(ModelConfigurationBuilder configuration)
    {
        configuration.Properties<DateTime>().HaveConversion<UtcConverter>();
        configuration.Properties<string>().HaveMaxLength(400);

        // Names instead of numbers: a table read by hand or by a report must speak for itself.
        configuration.Properties<NumberKind>().HaveConversion<string>();
        configuration.Properties<Station>().HaveConversion<string>();
        configuration.Properties<WashoutProcess>().HaveConversion<string>();
        configuration.Properties<EquipmentKind>().HaveConversion<string>();
        configuration.Properties<LampBank>().HaveConversion<string>();
        configuration.Properties<RecipeState>().HaveConversion<string>();
        configuration.Properties<LengthSystem>().HaveConversion<string>();
        configuration.Properties<TicketState>().HaveConversion<string>();
        configuration.Properties<SheetState>().HaveConversion<string>();
        configuration.Properties<StageState>().HaveConversion<string>();
        configuration.Properties<LengthVerdict>().HaveConversion<string>();
        configuration.Properties<ColourSource>().HaveConversion<string>();
        configuration.Properties<ArrivalState>().HaveConversion<string>();
        configuration.Properties<ScanAction>().HaveConversion<string>();
        configuration.Properties<Role>().HaveConversion<int>();
        configuration.Properties<CalendarContent>().HaveConversion<int>();
        configuration.Properties<ScanOutcome>().HaveConversion<string>();
        configuration.Properties<ReadingKind>().HaveConversion<string>();
        configuration.Properties<ReadingState>().HaveConversion<string>();
        configuration.Properties<StageDecisionKind>().HaveConversion<string>();
        configuration.Properties<PlateDefect>().HaveConversion<string>();
        configuration.Properties<HandoverState>().HaveConversion<string>();
        configuration.Properties<DocumentDoor>().HaveConversion<string>();
        configuration.Properties<DocumentPurpose>().HaveConversion<string>();
        configuration.Properties<DocumentState>().HaveConversion<string>();
        configuration.Properties<NameKind>().HaveConversion<string>();
        configuration.Properties<TicketEventKind>().HaveConversion<string>();
        configuration.Properties<DeliveryKind>().HaveConversion<string>();
        configuration.Properties<DeliveryState>().HaveConversion<string>();
    }

    /// <summary>What belongs to a group of sites and not to one of them.</summary>
    public static IReadOnlyList<Type> OfTheGroup { get; } =
    [
        typeof(Account), typeof(IdentityUserClaim<int>), typeof(IdentityUserLogin<int>), typeof(IdentityUserToken<int>), typeof(IdentityUserPasskey<int>),
        typeof(ProtectionKey), typeof(SiteRole), typeof(SiteStanding),
    ];

    public static void Configure(ModelBuilder model, bool isPostgreSql, bool isOneOfSeveral)
    {
        Room(model);
        OrdersAndTickets(model);
        SheetsAndScans(model);
        Accounts(model);
        Audit(model);
        Quality(model);
        Shifts(model);
        Exchange(model);
        model.Entity<NumberSequence>().HasKey(s => s.Kind);
        model.Entity<ProtectionKey>().Property(k => k.Xml).HasMaxLength(16_000);
        Version<Order>(model);
        Version<Ticket>(model);
        Version<Sheet>(model);
        Version<StockLot>(model);
        Version<Remnant>(model);
        Version<ArrivedFile>(model);
        Version<StageReading>(model);
        Version<Handover>(model);
        Version<ReceivedDocument>(model);
        if (isOneOfSeveral)
        {
            foreach (var entity in model.Model.GetEntityTypes().Where(e => OfTheGroup.Contains(e.ClrType)).ToList())
            {
                entity.SetSchema(SiteKey.People);
            }
        }

        if (isPostgreSql)
        {
            // Its text costs the same with and without a limit, and SQLite knows none: both take the same.
            foreach (var text in model.Model.GetEntityTypes().SelectMany(e => e.GetDeclaredProperties()).Where(p => p.GetMaxLength() is not null).ToList())
            {
                text.SetMaxLength(null);
            }
        }
    }

    private static void Accounts(ModelBuilder model)
    {
        model.Entity<Account>(e =>
        {
            e.ToTable("Accounts");
            e.HasIndex(a => a.BadgeHash).IsUnique();
        });
        model.Entity<IdentityUserClaim<int>>().ToTable("AccountClaims");
        model.Entity<IdentityUserLogin<int>>().ToTable("AccountLogins");
        model.Entity<IdentityUserToken<int>>().ToTable("AccountTokens");
        model.Entity<IdentityUserPasskey<int>>().ToTable("AccountPasskeys");
        model.Entity<SiteRole>(e =>
        {
            e.HasKey(r => new { r.AccountId, r.Site });
            e.HasOne(r => r.Account).WithMany().HasForeignKey(r => r.AccountId).OnDelete(DeleteBehavior.Restrict);
        });
        model.Entity<SiteStanding>().HasKey(s => s.Site);
        model.Entity<IdempotentCall>(e =>
        {
            e.HasIndex(c => new { c.Caller, c.Key }).IsUnique();
            e.HasIndex(c => c.AtUtc);
            // The numbers of a whole list of orders.
            e.Property(c => c.Number).HasMaxLength(16_000);
        });
        model.Entity<ApiKey>().HasIndex(k => k.Hash).IsUnique();
        model.Entity<Tablet>().HasIndex(t => t.Hash).IsUnique();
        model.Entity<CalendarFeed>(e =>
        {
            e.HasIndex(f => f.Hash).IsUnique();
            e.HasOne(f => f.Account).WithMany().HasForeignKey(f => f.AccountId).OnDelete(DeleteBehavior.Restrict);
        });
    }

    private static void Audit(ModelBuilder model)
    {
        model.Entity<AuditEntry>(e =>
        {
            e.Property(a => a.Id).ValueGeneratedNever();
            e.Property(a => a.From).HasMaxLength(AuditEntry.LongestValue);
            e.Property(a => a.To).HasMaxLength(AuditEntry.LongestValue);
            e.Property(a => a.Hash).HasMaxLength(32);
            // One for each question of the audit page; with an equal value the newest come first by the key that every index ends with.
            e.HasIndex(a => new { a.Key, a.Id });
            e.HasIndex(a => new { a.By, a.Id });
            e.HasIndex(a => new { a.Record, a.Id });
            e.HasIndex(a => a.AtUtc);
        });
        model.Entity<AuditHead>(e =>
        {
            e.Property(h => h.Id).ValueGeneratedNever();
            e.Property(h => h.Hash).HasMaxLength(32);
            e.HasData(new AuditHead { Id = AuditHead.OnlyId, Hash = AuditHasher.Start });
        });
    }

    private static void Room(ModelBuilder model)
    {
        model.Entity<Equipment>().HasIndex(e => e.Slug).IsUnique();
        model.Entity<EquipmentDowntime>(e =>
        {
            e.HasOne<Equipment>().WithMany().HasForeignKey(d => d.EquipmentId).OnDelete(DeleteBehavior.Restrict);
            e.HasIndex(d => d.ToUtc);
        });
        model.Entity<DutyChange>().HasIndex(d => d.ToUtc);
        model.Entity<Material>().HasIndex(m => m.Name).IsUnique();
        model.Entity<RecipeRevision>(e =>
        {
            e.HasIndex(r => new { r.MaterialId, r.Number }).IsUnique();
            e.Property(r => r.Settings).HasMaxLength(8000).HasConversion(
                s => JsonSerializer.Serialize(s, JsonSerializerOptions.Default),
                s => JsonSerializer.Deserialize<RecipeSettings>(s, JsonSerializerOptions.Default)!);
        });
        model.Entity<LampReadingEntry>(e =>
        {
            e.HasOne<Equipment>().WithMany().HasForeignKey(r => r.EquipmentId).OnDelete(DeleteBehavior.Restrict);
            e.HasIndex(r => new { r.EquipmentId, r.Bank, r.ReadUtc });
        });
        model.Entity<StepTestEntry>(e =>
        {
            e.OwnsMany(t => t.Steps, s => s.ToJson());
            e.HasOne(t => t.Material).WithMany().OnDelete(DeleteBehavior.Restrict);
            e.HasOne<Equipment>().WithMany().HasForeignKey(t => t.EquipmentId).OnDelete(DeleteBehavior.Restrict);
            e.HasIndex(t => t.MadeUtc);
        });
        model.Entity<RecipeRevision>().HasOne<StepTestEntry>().WithMany().HasForeignKey(r => r.StepTestId).OnDelete(DeleteBehavior.Restrict);
        model.Entity<ShiftEntry>().OwnsMany(s => s.Breaks, b => b.ToJson());
        model.Entity<StockSize>().HasOne(s => s.Material).WithMany().OnDelete(DeleteBehavior.Restrict);
        model.Entity<StockLot>().HasOne(l => l.StockSize).WithMany(s => s.Lots).OnDelete(DeleteBehavior.Restrict);
        model.Entity<Remnant>(e =>
        {
            e.HasOne<Material>().WithMany().HasForeignKey(r => r.MaterialId).OnDelete(DeleteBehavior.Restrict);
            e.HasIndex(r => new { r.MaterialId, r.TakenBySheetId });
            e.HasIndex(r => r.FromSheetId);
        });
    }

    private static void OrdersAndTickets(ModelBuilder model)
    {
        model.Entity<Customer>().HasIndex(c => c.Name).IsUnique();
        model.Entity<Press>(e =>
        {
            e.HasIndex(p => p.Name).IsUnique();
            e.HasOne(p => p.UsualMaterial).WithMany().HasForeignKey(p => p.UsualMaterialId).OnDelete(DeleteBehavior.Restrict);
        });
        model.Entity<Order>(e =>
        {
            e.HasIndex(o => o.Number).IsUnique();
            e.HasIndex(o => o.DueUtc);
            e.HasOne(o => o.Customer).WithMany().OnDelete(DeleteBehavior.Restrict);
            e.HasOne(o => o.Press).WithMany().OnDelete(DeleteBehavior.Restrict);
            e.HasOne(o => o.Material).WithMany().OnDelete(DeleteBehavior.Restrict);
            e.HasOne(o => o.Ticket).WithOne(t => t.Order).HasForeignKey<Ticket>(t => t.Id);
        });
        model.Entity<Ticket>(e =>
        {
            e.Property(t => t.Id).ValueGeneratedNever();
            e.HasIndex(t => t.State);
            e.HasIndex(t => t.DoneUtc);
        });
        model.Entity<TicketText>(e =>
        {
            e.HasKey(x => x.TicketId);
            e.HasOne(x => x.Ticket).WithOne().HasForeignKey<TicketText>(x => x.TicketId);
            e.Property(x => x.TicketId).ValueGeneratedNever();
            e.Property(x => x.Text).HasMaxLength(-1);
        });
        model.Entity<Separation>().HasIndex(s => s.Sha256);
        model.Entity<SeparationPreview>(e =>
        {
            e.HasKey(p => p.SeparationId);
            e.HasOne(p => p.Separation).WithOne().HasForeignKey<SeparationPreview>(p => p.SeparationId);
        });
        model.Entity<ArrivedFile>(e =>
        {
            e.HasIndex(f => new { f.Sha256, f.FileName }).IsUnique();
            e.HasIndex(f => new { f.State, f.ArrivedUtc });
            e.Property(f => f.Sentence).HasMaxLength(2000);
        });
        model.Entity<ArrivedPreview>(e =>
        {
            e.HasKey(p => p.ArrivedFileId);
            e.HasOne(p => p.ArrivedFile).WithOne().HasForeignKey<ArrivedPreview>(p => p.ArrivedFileId);
        });
        model.Entity<Plate>().HasOne(p => p.Separation).WithMany().OnDelete(DeleteBehavior.Restrict);
    }

    private static void SheetsAndScans(ModelBuilder model)
    {
        model.Entity<Sheet>(e =>
        {
            e.HasIndex(s => s.Number).IsUnique();
            e.HasIndex(s => s.State);
            e.HasIndex(s => s.DoneUtc);
            e.HasIndex(s => s.MadeUtc);
            e.HasOne(s => s.Material).WithMany().OnDelete(DeleteBehavior.Restrict);
            e.HasOne(s => s.RecipeRevision).WithMany().OnDelete(DeleteBehavior.Restrict);
        });
        model.Entity<Sheet>().HasOne<StockLot>().WithMany().HasForeignKey(s => s.StockLotId).OnDelete(DeleteBehavior.Restrict);
        model.Entity<SheetLayout>(e =>
        {
            e.HasMany(l => l.Sheets).WithOne().HasForeignKey(s => s.LayoutId).OnDelete(DeleteBehavior.Restrict);
            e.HasIndex(l => l.MaterialId);
        });
        model.Entity<Placement>().HasIndex(p => p.PlateId).IsUnique();
        model.Entity<Stage>(e =>
        {
            e.HasIndex(s => new { s.SheetId, s.Station }).IsUnique();
            e.HasIndex(s => new { s.EquipmentId, s.State });
            e.HasIndex(s => s.FinishedUtc);
            e.HasOne(s => s.Equipment).WithMany().OnDelete(DeleteBehavior.Restrict);
            e.Property(s => s.Flags).HasMaxLength(2000);
        });
        model.Entity<Scan>(e =>
        {
            e.Property(s => s.Id).ValueGeneratedNever();
            e.HasIndex(s => new { s.SheetId, s.ReadUtc });
            e.HasOne<Sheet>().WithMany().HasForeignKey(s => s.SheetId).OnDelete(DeleteBehavior.Restrict);
            e.HasOne<Equipment>().WithMany().HasForeignKey(s => s.EquipmentId).OnDelete(DeleteBehavior.Restrict);
        });
    }

    private static void Quality(ModelBuilder model)
    {
        model.Entity<StageReading>(e =>
        {
            e.HasOne(r => r.Sheet).WithMany().OnDelete(DeleteBehavior.Restrict);
            e.HasOne<Equipment>().WithMany().HasForeignKey(r => r.EquipmentId).OnDelete(DeleteBehavior.Restrict);
            e.HasIndex(r => new { r.SheetId, r.State });
            e.HasIndex(r => new { r.Kind, r.AtUtc });
        });
        model.Entity<StageDecision>(e =>
        {
            e.HasOne(d => d.Sheet).WithMany().OnDelete(DeleteBehavior.Restrict);
            e.HasIndex(d => d.SheetId);
        });
        model.Entity<Remake>(e =>
        {
            e.HasOne(r => r.Ticket).WithMany().OnDelete(DeleteBehavior.Restrict);
            e.HasOne(r => r.Sheet).WithMany().OnDelete(DeleteBehavior.Restrict);
            e.HasOne(r => r.Plate).WithMany().OnDelete(DeleteBehavior.Restrict);
            e.HasOne(r => r.NewPlate).WithMany().OnDelete(DeleteBehavior.Restrict);
            e.HasIndex(r => r.AtUtc);
        });
    }

    private static void Shifts(ModelBuilder model)
    {
        model.Entity<ShiftGoal>().HasIndex(g => new { g.ShiftStartUtc, g.ShiftName, g.Station }).IsUnique();
        model.Entity<Handover>(e =>
        {
            e.HasIndex(h => new { h.StartUtc, h.ShiftName }).IsUnique();
            e.Property(h => h.Notes).HasMaxLength(Handover.LongestNotes);
            e.Property(h => h.Remark).HasMaxLength(Handover.LongestRemark);
            // As one text: it is written once, read whole, and never searched.
            e.Property(h => h.Facts).HasMaxLength(1_000_000).HasConversion(
                f => JsonSerializer.Serialize(f, Named),
                f => JsonSerializer.Deserialize<HandoverFacts>(f, Named));
        });
    }

    private static void Exchange(ModelBuilder model)
    {
        model.Entity<ReceivedDocument>(e =>
        {
            e.HasIndex(d => new { d.JobId, d.Sender });
            e.HasIndex(d => new { d.State, d.ReceivedUtc });
            e.HasOne(d => d.Order).WithMany().HasForeignKey(d => d.OrderId).OnDelete(DeleteBehavior.Restrict);
            e.HasOne<ReceivedDocument>().WithMany().HasForeignKey(d => d.FirstId).OnDelete(DeleteBehavior.Restrict);
            e.Property(d => d.Sentence).HasMaxLength(2000);
            e.Property(d => d.ReturnUrl).HasMaxLength(2000);
            e.Ignore(d => d.QueueEntryId);
        });
        model.Entity<DocumentText>(e =>
        {
            e.HasKey(t => t.DocumentId);
            e.Property(t => t.DocumentId).ValueGeneratedNever();
            e.HasOne(t => t.Document).WithOne().HasForeignKey<DocumentText>(t => t.DocumentId);
            e.Property(t => t.Answers).HasMaxLength(8000).HasConversion(
                a => JsonSerializer.Serialize(a, Named),
                a => JsonSerializer.Deserialize<DocumentAnswers>(a, Named)!);
        });
        model.Entity<DocumentFile>(e =>
        {
            e.HasOne(f => f.Document).WithMany().HasForeignKey(f => f.DocumentId);
            e.Property(f => f.Url).HasMaxLength(2000);
        });
        model.Entity<KnownName>().HasIndex(n => new { n.Kind, n.Text }).IsUnique();
        model.Entity<TicketEvent>(e =>
        {
            e.HasOne(v => v.Ticket).WithMany().HasForeignKey(v => v.TicketId).OnDelete(DeleteBehavior.Restrict);
            e.HasIndex(v => new { v.TicketId, v.Id });
            e.HasIndex(v => v.Told).HasFilter("NOT \"Told\"");
        });
        model.Entity<Delivery>(e =>
        {
            e.HasOne(d => d.Event).WithMany().HasForeignKey(d => d.EventId).OnDelete(DeleteBehavior.Restrict);
            // An event goes to a receiver once, however often its deliveries are made.
            e.HasIndex(d => new { d.EventId, d.Kind, d.ReceiverId }).IsUnique();
            e.HasIndex(d => new { d.State, d.NextUtc });
            e.Property(d => d.To).HasMaxLength(2000);
            e.Property(d => d.Answer).HasMaxLength(1000);
        });
        model.Entity<Webhook>(e =>
        {
            e.Property(w => w.Url).HasMaxLength(2000);
            e.Property(w => w.Secret).HasMaxLength(2000);
            e.Ignore(w => w.KindList);
        });
        model.Entity<SignalChannel>(e =>
        {
            e.Property(c => c.Url).HasMaxLength(2000);
            e.Ignore(c => c.ChannelId);
        });
        model.Entity<StatusLink>(e =>
        {
            e.HasIndex(l => l.Hash).IsUnique();
            e.HasOne(l => l.Order).WithMany().HasForeignKey(l => l.OrderId).OnDelete(DeleteBehavior.Restrict);
            e.Property(l => l.Token).HasMaxLength(2000);
        });
    }

    private static void Version<T>(ModelBuilder model)
        where T : class, IVersioned =>
        model.Entity<T>().Property(e => e.Version).IsConcurrencyToken();

    /// <summary>Every instant is UTC; SQLite forgets the kind, PostgreSQL insists on it and keeps whole microseconds: so both do.</summary>
    private sealed class UtcConverter() : ValueConverter<DateTime, DateTime>(
        value => Kept(value),
        value => DateTime.SpecifyKind(value, DateTimeKind.Utc))
    {
        private static DateTime Kept(DateTime value)
        {
            var utc = value.Kind == DateTimeKind.Local ? value.ToUniversalTime() : DateTime.SpecifyKind(value, DateTimeKind.Utc);
            return utc.AddTicks(-(utc.Ticks % TimeSpan.TicksPerMicrosecond));
        }
    }
}

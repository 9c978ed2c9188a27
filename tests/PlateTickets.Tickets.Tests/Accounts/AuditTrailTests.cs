using Microsoft.EntityFrameworkCore;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Accounts.Audit;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets.Layouts;

namespace PlateTickets.Tickets.Tests.Accounts;

public class AuditTrailTests
{
    [Fact]
    public async Task Change_IsKeptWithWhoWhenFromAndTo()
    {
        await using var room = await RoomFixture.CreateAsync();
        var number = (await room.OrderAsync(["Cyan"])).Order.Number;
        room.Clock.Advance(TimeSpan.FromMinutes(5));
        await using (var db = room.CreateDbContext())
        {
            db.ActingAs = "Ada";
            db.Clock = room.Clock;
            (await db.Orders.SingleAsync()).Title = "Another title";
            await db.SaveChangesAsync();
        }

        await using var read = room.CreateDbContext();
        var entry = await read.AuditEntries.SingleAsync(a => a.Field == "Title");
        Assert.Equal(("Order", number, "Ada", "Test job", "Another title"), (entry.Record, entry.Key, entry.By, entry.From, entry.To));
        Assert.Equal(room.Now, entry.AtUtc);
        Assert.True(await read.AuditEntries.AnyAsync(a => a.Record == "Order" && a.Key == number && a.Field == "(new)" && a.By == "test"));
    }

    [Fact]
    public async Task TwoPeopleWhoEditOneOrder_TheSecondIsTold()
    {
        await using var room = await RoomFixture.CreateAsync();
        await room.OrderAsync(["Cyan"]);
        await using var first = room.CreateDbContext();
        await using var second = room.CreateDbContext();
        (await first.Orders.SingleAsync()).Title = "First";
        (await second.Orders.SingleAsync()).Title = "Second";
        await first.SaveChangesAsync();
        await Assert.ThrowsAsync<DbUpdateConcurrencyException>(() => second.SaveChangesAsync());
    }

    [Fact]
    public async Task DeletedRecord_IsKeptWithWhatItWas_WithoutItsSecrets()
    {
        await using var room = await RoomFixture.CreateAsync();
        await using var db = room.CreateDbContext();
        db.ActingAs = "Ada";
        db.Customers.Add(new Customer { Name = "Gone Foods" });
        await db.SaveChangesAsync();
        db.Customers.Remove(await db.Customers.SingleAsync(c => c.Name == "Gone Foods"));
        await db.SaveChangesAsync();
        var entry = await db.AuditEntries.SingleAsync(a => a.Field == AuditEntry.Deleted);
        Assert.Equal(("Customer", "Gone Foods", "Ada"), (entry.Record, entry.Key, entry.By));
        Assert.Contains("\"Name\":\"Gone Foods\"", entry.From, StringComparison.Ordinal);
    }

    [Fact]
    public async Task PartOfARecord_IsKeptUnderItsOwner()
    {
        await using var room = await RoomFixture.CreateAsync();
        await using var db = room.CreateDbContext();
        var shift = (await db.Sites.Include(s => s.Shifts).SingleAsync()).Shifts[0];
        shift.Breaks[0].Start = new TimeOnly(9, 15);
        await db.SaveChangesAsync();
        shift.Breaks.Clear();
        await db.SaveChangesAsync();
        var entries = await db.AuditEntries.Where(a => a.Record == "ShiftEntry" && a.Field.StartsWith("Breaks")).OrderBy(a => a.Id).ToListAsync();
        Assert.Equal(("Breaks.Start", "09:00", "09:15"), (entries[0].Field, entries[0].From, entries[0].To));
        Assert.Contains("09:15", entries[1].From, StringComparison.Ordinal);
        Assert.Null(entries[1].To);
        Assert.Equal(shift.Name, entries[1].Key);
    }

    [Fact]
    public async Task NewRecord_IsKeptUnderTheIdThatTheDatabaseGaveIt()
    {
        await using var room = await RoomFixture.CreateAsync();
        await using var db = room.CreateDbContext();
        var layout = new SheetLayout { MaterialId = 1, ReleasedUtc = room.Now, ReleasedBy = "Ada" };
        db.SheetLayouts.Add(layout);
        await db.SaveChangesAsync();
        Assert.True(await db.AuditEntries.AnyAsync(a => a.Record == "SheetLayout" && a.Key == $"layout {layout.Id}"));
    }

    [Fact]
    public async Task FailedSave_LeavesNoEntry()
    {
        await using var room = await RoomFixture.CreateAsync();
        await using (var db = room.CreateDbContext())
        {
            var before = await db.AuditEntries.CountAsync();
            var taken = await db.Customers.Select(c => c.Name).FirstAsync();
            db.Note("Account", "ada", "signed in");
            db.Customers.Add(new Customer { Name = taken });
            await Assert.ThrowsAsync<DbUpdateException>(() => db.SaveChangesAsync());
            Assert.Equal(before, await db.AuditEntries.CountAsync());
        }

        await using var check = room.CreateDbContext();
        await check.Database.OpenConnectionAsync();
        Assert.True((await new AuditCheck(check.Database.GetDbConnection()).WalkAsync()).Whole);
    }

    [Fact]
    public async Task Secret_ChangesWithoutItsValues()
    {
        await using var db = new SecretDb();
        await db.Database.OpenConnectionAsync();
        await db.Database.EnsureCreatedAsync();
        var holder = new SecretHolder { Name = "ada", Pin = "1234" };
        db.Add(holder);
        await db.SaveChangesAsync();
        (holder.Pin, holder.LastSeen) = ("9876", 3);
        db.ChangeTracker.DetectChanges();
        var entry = db.Entry(holder);
        var change = Assert.Single(AuditTrail.ChangesOf(entry, holder, "Test"));
        Assert.Equal((nameof(SecretHolder.Pin), AuditEntry.Secret, AuditEntry.Secret), (change.Field, change.From, change.To));
        entry.State = EntityState.Deleted;
        var gone = Assert.Single(AuditTrail.ChangesOf(entry, holder, "Test"));
        Assert.Contains("ada", gone.From, StringComparison.Ordinal);
        Assert.DoesNotContain("1234", gone.From, StringComparison.Ordinal);
        Assert.DoesNotContain("9876", gone.From, StringComparison.Ordinal);
    }

    /// <summary>A record is in the trail, or stands here with the reason why it need not be.</summary>
    [Fact]
    public async Task EveryRecordThatPeopleChange_IsAudited()
    {
        var elsewhere = new Dictionary<string, string>
        {
            ["AuditEntry"] = "is the trail",
            ["AuditHead"] = "is the trail",
            ["Scan"] = "append-only, with who and when",
            ["Stage"] = "follows from plan and scans",
            ["Plate"] = "follows from order and separation",
            ["Placement"] = "comes and goes with its sheet",
            ["SeparationPreview"] = "is read from the file",
            ["ArrivedPreview"] = "is read from the file",
            ["NumberSequence"] = "counts by itself",
            ["BreakSpan"] = "is kept with its shift",
            ["StepTestStep"] = "is kept with its step test",
            ["ShiftGoal"] = "is taken from the plan",
            ["TicketText"] = "follows from order, separations and sheets",
            ["SiteStanding"] = "counts by itself",
            ["ProtectionKey"] = "is made by the framework",
            ["DocumentText"] = "comes with its document; who answered what is noted there",
            ["DocumentFile"] = "comes with its document",
            ["TicketEvent"] = "is itself what happened, with who and when",
            ["Delivery"] = "follows from an event; sending again by hand is noted",
            ["IdempotentCall"] = "is an answer kept for a day; what the call did is in the trail",
            ["IdentityUserToken`1"] = "holds secrets of the second factor; that it was switched on or off is in the trail with its account",
            ["IdentityUserLogin`1"] = "is noted with the account's first sign-in",
            ["IdentityUserClaim`1"] = "is not used",
            ["IdentityUserPasskey`1"] = "is not used",
            ["IdentityPasskeyData"] = "is not used",
        };
        await using var room = await RoomFixture.CreateAsync();
        await using var db = room.CreateDbContext();
        var wrong = db.Model.GetEntityTypes().Select(t => t.ClrType).Distinct().Where(t => typeof(IAudited).IsAssignableFrom(t) == elsewhere.ContainsKey(t.Name)).Select(t => t.Name);
        Assert.True(!wrong.Any(), $"{string.Join(", ", wrong)}: people change it, so let it implement IAudited, or say in this test why its changes need not be kept.");
    }

    /// <summary>These pass by the trail: whoever uses them writes a note beside.</summary>
    [Fact]
    public void BulkUpdates_AreFewAndNoted()
    {
        var unseen = new Dictionary<string, string>
        {
            ["ApiKeys.cs"] = "notes when a key was last used",
            ["CalendarFeeds.cs"] = "notes when a calendar was last read",
            ["StatusLinks.cs"] = "notes when a customer last looked",
            ["DeliveryDesk.cs"] = "notes how a try to send went",
            ["IdempotentCalls.cs"] = "forgets answers after a day",
        };
        var source = Path.Combine(Repository.Root, "src");
        var users = Directory.EnumerateFiles(source, "*.cs", SearchOption.AllDirectories)
            .Where(f => !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal))
            .Where(f => !unseen.ContainsKey(Path.GetFileName(f)) && File.ReadAllText(f) is var text && (text.Contains("ExecuteUpdate", StringComparison.Ordinal) || text.Contains("ExecuteDelete", StringComparison.Ordinal)))
            .ToList();
        Assert.All(users, f => Assert.True(File.ReadAllText(f).Contains(".Note(", StringComparison.Ordinal), $"{Path.GetFileName(f)} changes rows past the audit trail and notes nothing."));
    }

    private sealed class SecretHolder : IAudited
    {
        public int Id { get; set; }

        public required string Name { get; set; }

        [Secret]
        public required string Pin { get; set; }

        [NotAudited]
        public int LastSeen { get; set; }

        public string AuditKey => Name;
    }

    private sealed class SecretDb() : DbContext(new DbContextOptionsBuilder().UseSqlite("Data Source=:memory:").Options)
    {
        public DbSet<SecretHolder> Holders => Set<SecretHolder>();
    }
}

using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Recipes;

namespace PlateTickets.Tickets.Tests.Recipes;

public class RecipeBookTests
{
    [Fact]
    public async Task Draft_IsNotUsed_UntilItIsReleasedWithAReason()
    {
        await using var room = await RoomFixture.CreateAsync();
        var book = Book(room);
        var (material, current) = await CurrentAsync(room);
        var id = await book.DraftAsync(material.Id, current.Settings with { FaceExposure = current.Settings.FaceExposure with { DoseMjPerCm2 = 12_000 } }, "Lead");
        Assert.Equal(current.Id, (await room.Rooms.GetAsync()).Released(material.Id)!.Id);

        var refused = await Assert.ThrowsAsync<PlateRoomException>(() => book.ReleaseAsync(id, "Lead", " "));
        Assert.Contains("Write why this revision is made", refused.Message, StringComparison.Ordinal);
        await book.ReleaseAsync(id, "Lead", "highlights open");
        var released = (await room.Rooms.GetAsync()).Released(material.Id)!;
        Assert.Equal((id, current.Number + 1, "highlights open"), (released.Id, released.Number, released.Note));
    }

    [Fact]
    public async Task Ticket_KeepsItsRevision_AndIsRetimedWhenAsked_IfNotStarted()
    {
        await using var room = await RoomFixture.CreateAsync();
        var book = Book(room);
        var started = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var waiting = (await room.OrderAsync(["Black"])).Order.Number;
        await room.ScanAsync(started, "frame-1");
        var (material, current) = await CurrentAsync(room);
        var id = await book.DraftAsync(material.Id, current.Settings with { FaceExposure = current.Settings.FaceExposure with { DoseMjPerCm2 = 15_100 } }, "Lead");
        await book.ReleaseAsync(id, "Lead", "test");

        await room.Plans.ReplanAsync();
        Assert.Equal(current.Id, (await room.Orders.FindAsync(waiting))!.Sheets[0].RecipeRevisionId);
        var touched = await book.TouchedAsync(id);
        Assert.Equal([(true, current.Number), (false, current.Number)], touched.Select(t => (t.Started, t.Revision)));

        Assert.Equal(1, await book.RetimeAsync(id, "Lead"));
        await room.Plans.ReplanAsync();
        var sheet = (await room.Orders.FindAsync(waiting))!.Sheets[0];
        Assert.Equal(id, sheet.RecipeRevisionId);
        // 15 100 mJ/cm2 at 15.1 or 14.6 mW/cm2.
        Assert.Contains(sheet.Stages.Single(s => s.Station == Station.FaceExposure).RunSeconds, new[] { 1000, 1034 });
        Assert.Equal(current.Id, (await room.Sheets.FindAsync(started))!.Sheet.RecipeRevisionId);
    }

    [Fact]
    public async Task Withdrawn_TheRevisionBeforeCountsAgain()
    {
        await using var room = await RoomFixture.CreateAsync();
        var book = Book(room);
        var (material, current) = await CurrentAsync(room);
        var id = await book.DraftAsync(material.Id, current.Settings, "Lead");
        await book.ReleaseAsync(id, "Lead", "trial");
        await book.WithdrawAsync(id, "Lead", "worse");
        var catalog = await room.Rooms.GetAsync();
        Assert.Equal(current.Id, catalog.Released(material.Id)!.Id);
        Assert.Equal("trial; withdrawn: worse", catalog.Revisions[id].Note);
        await Assert.ThrowsAsync<PlateRoomException>(() => book.ReleaseAsync(id, "Lead", "again"));
    }

    [Fact]
    public async Task ReleasedSettings_AreNeverOverwritten()
    {
        await using var room = await RoomFixture.CreateAsync();
        var book = Book(room);
        var (material, current) = await CurrentAsync(room);
        var before = current.Settings;
        await book.DraftAsync(material.Id, before with { Imaging = before.Imaging with { ResolutionPpi = 4000 } }, "Lead");
        await book.DraftAsync(material.Id, before with { Imaging = before.Imaging with { ResolutionPpi = 2400 } }, "Lead");
        await using var db = room.CreateDbContext();
        var all = await db.RecipeRevisions.Where(r => r.MaterialId == material.Id).OrderBy(r => r.Number).ToListAsync();
        Assert.Equal(3, all.Count);
        Assert.Equal(before, all[1].Settings);
        Assert.Equal(2400, all[2].Settings.Imaging.ResolutionPpi);
    }

    [Fact]
    public async Task ImpossibleSettings_AreRefused()
    {
        await using var room = await RoomFixture.CreateAsync();
        var book = Book(room);
        var (material, current) = await CurrentAsync(room);
        var s = current.Settings;
        await SaysAsync("The floor (1.80 mm) must lie between the base", s with { BackExposure = s.BackExposure with { FloorMm = 1.8 } });
        await SaysAsync("The laser power is 120 %", s with { Imaging = s.Imaging with { LaserPowerPercent = 120 } });
        await SaysAsync("The dose is 0 mJ/cm²", s with { FaceExposure = s.FaceExposure with { DoseMjPerCm2 = 0 } });
        await SaysAsync("The transport speed is -1 mm/min", s with { Washout = s.Washout with { TransportMmPerMin = -1 } });
        await SaysAsync("shorter than the drying time itself", s with { Drying = s.Drying! with { LongestSeconds = 60 } });
        await SaysAsync("After a thermal washout", s with { Drying = null });

        async Task SaysAsync(string words, Process.Recipes.RecipeSettings settings)
        {
            var refused = await Assert.ThrowsAsync<PlateRoomException>(() => book.DraftAsync(material.Id, settings, "Lead"));
            Assert.Contains(words, refused.Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task StepTest_IsKept_AndItsExtrapolatedTimeNeedsAReason()
    {
        await using var room = await RoomFixture.CreateAsync();
        var tests = new StepTests(room, room.Rooms, room.Clock);
        var (material, current) = await CurrentAsync(room);
        var id = await tests.AddAsync(Test(material.Id, (40, 0.72), (60, 0.93), (80, 1.05), (100, 1.19)));
        var kept = (await tests.FindAsync(id))!;
        Assert.Equal([0.72, 0.93, 1.05, 1.19], kept.Steps.Select(s => s.FloorMm));
        var time = kept.ToTest(kept.Material!).Curve().TimeFor(1.4, 15);
        Assert.True(time.Extrapolated);

        var book = Book(room);
        var draft = await book.DraftAsync(
            material.Id, current.Settings with { BackExposure = current.Settings.BackExposure with { SecondsAtReference = time.Seconds, FloorMm = 1.4 } }, "Lead", id, "Outside what was tested.");
        var refused = await Assert.ThrowsAsync<PlateRoomException>(() => book.ReleaseAsync(draft, "Lead", ""));
        Assert.Contains("Outside what was tested. It can be released with a reason only", refused.Message, StringComparison.Ordinal);
        await book.ReleaseAsync(draft, "Lead", "trial sheet measured 1.41 mm");
    }

    [Fact]
    public async Task StepTestThatGivesNoCurve_IsRefused_AndNotKept()
    {
        await using var room = await RoomFixture.CreateAsync();
        var tests = new StepTests(room, room.Rooms, room.Clock);
        var (material, _) = await CurrentAsync(room);
        var before = (await tests.LatestAsync(10)).Count;
        var refused = await Assert.ThrowsAsync<PlateRoomException>(() => tests.AddAsync(Test(material.Id, (40, 1.2), (60, 1.0), (80, 0.8))));
        Assert.Contains("The floors fall with longer exposure", refused.Message, StringComparison.Ordinal);
        Assert.Equal(before, (await tests.LatestAsync(10)).Count);
    }

    [Fact]
    public async Task Comparison_MarksWhatChanged()
    {
        await using var room = await RoomFixture.CreateAsync();
        var (_, current) = await CurrentAsync(room);
        var after = current.Settings with { FaceExposure = current.Settings.FaceExposure with { DoseMjPerCm2 = 11_000 } };
        var changed = Assert.Single(RecipeLines.Compare(current.Settings, after), l => l.Changed);
        Assert.Equal((Station.FaceExposure, "Dose"), (changed.Station, changed.Name));
    }

    private static RecipeBook Book(RoomFixture room) => new(room, room.Rooms, room.Events, room.Clock);

    private static StepTestEntry Test(int material, params (double Seconds, double Floor)[] steps) => new()
    {
        MaterialId = material,
        EquipmentId = 1,
        IrradianceMwPerCm2 = 15,
        MadeBy = "Lead",
        Steps = [.. steps.Select(s => new StepTestStep { Seconds = s.Seconds, FloorMm = s.Floor })],
    };

    private static async Task<(Material Material, RecipeRevision Current)> CurrentAsync(RoomFixture room)
    {
        var catalog = await room.Rooms.GetAsync();
        var material = catalog.Materials.Values.First(m => m.Process == WashoutProcess.Solvent);
        return (material, catalog.Released(material.Id)!);
    }
}

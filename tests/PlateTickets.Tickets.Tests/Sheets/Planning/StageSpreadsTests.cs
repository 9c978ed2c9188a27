using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;

namespace PlateTickets.Tickets.Tests.Sheets.Planning;

public class StageSpreadsTests
{
    [Fact]
    public void NothingRecorded_IsTheFirstGuess() => Assert.Equal(StageSpreads.Unknown, StageSpreads.Of([]));

    // Drawn from a known lognormal distribution: with many stages the guess no longer counts.
    [Fact]
    public void ManyStages_GiveMeanAndDeviationOfTheirLogarithms()
    {
        var random = new Random(3);
        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        var spread = StageSpreads.Of([.. Enumerable.Range(0, 2000).Select(_ => Math.Exp(0.08 + (0.2 * Normal())))]);
        Assert.Equal(0.08, spread.LogMean, 0.015);
        Assert.Equal(0.2, spread.LogDeviation, 0.01);
    }

    [Fact]
    public void ForgottenScans_AreLeftOut() => Assert.Equal(StageSpreads.Of([1, 1, 1]), StageSpreads.Of([1, 1, 1, 40, 0.01]));

    // The drying run is over at night; that it is taken out in the morning says nothing about the dryer.
    [Fact]
    public async Task NightInBetween_CountsOnlyFromTheShiftOn()
    {
        await using var room = await RoomFixture.CreateAsync();
        await room.OrderAsync(["Cyan"]);
        await using (var db = room.CreateDbContext())
        {
            var sheetStages = await db.Stages.Where(s => s.Station == Station.Drying).ToListAsync();
            foreach (var s in sheetStages)
            {
                (s.State, s.LoadSeconds, s.RunSeconds, s.UnloadSeconds) = (StageState.Done, 60, 5400, 60);
                s.StartedUtc = new DateTime(2026, 11, 24, 21, 30, 0, DateTimeKind.Utc);
                s.FinishedUtc = new DateTime(2026, 11, 25, 6, 1, 0, DateTimeKind.Utc);
            }

            await db.SaveChangesAsync();
        }

        var spreads = await new StageSpreads(room, room.Rooms, room.Clock).GetAsync();
        Assert.Equal(0, spreads[Station.Drying].LogMean, 1e-9);
        Assert.True(spreads[Station.Drying].LogDeviation < StageSpreads.Unknown.LogDeviation);
        Assert.Equal(StageSpreads.Unknown, spreads[Station.Imaging]);
    }
}

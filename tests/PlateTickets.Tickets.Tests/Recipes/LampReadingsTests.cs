using PlateTickets.Process;
using PlateTickets.Tickets.Recipes;

namespace PlateTickets.Tickets.Tests.Recipes;

public class LampReadingsTests
{
    [Fact]
    public async Task NewReading_RetimesExposuresThatHaveNotStarted()
    {
        await using var room = await RoomFixture.CreateAsync();
        var number = (await room.OrderAsync(["Cyan"])).Order.Number;
        var lamps = new LampReadings(room, room.Rooms, room.Events, room.Clock);
        foreach (var frame in (await room.Rooms.GetAsync()).Equipment.Where(e => e.Serves.Contains(Station.FaceExposure)))
        {
            await lamps.AddAsync(frame.Id, LampBank.Face, 12, "Lead");
        }

        await room.Plans.ReplanAsync();
        var face = (await room.Orders.FindAsync(number))!.Sheets.Single().Stages.Single(s => s.Station == Station.FaceExposure);
        // 10 800 mJ/cm2 at 12 mW/cm2 is 900 s: dose = irradiance x time.
        Assert.Equal(900, face.RunSeconds);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-3)]
    [InlineData(1500)]
    [InlineData(double.NaN)]
    public async Task ImpossibleReading_IsRefused(double value)
    {
        await using var room = await RoomFixture.CreateAsync();
        var lamps = new LampReadings(room, room.Rooms, room.Events, room.Clock);
        var refused = await Assert.ThrowsAsync<PlateRoomException>(() => lamps.AddAsync(1, LampBank.Face, value, "Lead"));
        Assert.Contains("check the radiometer's range and unit", refused.Message, StringComparison.Ordinal);
    }
}

using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;

namespace PlateTickets.Tickets.Tests.Stock;

public sealed class StockTests
{
    [Fact]
    public async Task Shelf_CountsFreeTakenAndWaitingSheets()
    {
        await using var room = await RoomFixture.CreateAsync();
        await room.OrderAsync(["Cyan", "Magenta", "Yellow", "Black"], acrossMm: 430, aroundMm: 549);
        await room.OrderWaitingAsync(["Cyan", "Magenta", "Yellow", "Black"], acrossMm: 430, aroundMm: 549);
        var line = (await room.StockShelf.ReadAsync()).SelectMany(m => m.Sizes).First();
        Assert.Equal((69, 1, 1, 1), (line.Free!.Value, line.Taken, line.Waiting, line.UsedLately));
        Assert.NotNull(line.LastTakenStartUtc);
    }

    [Fact]
    public async Task Shelf_WarnsOfExpiryLeastLevelAndRunningOut()
    {
        await using var room = await RoomFixture.CreateAsync();
        await using var db = room.CreateDbContext();
        var size = await db.StockSizes.OrderBy(s => s.Id).Include(s => s.Lots).FirstAsync();
        size.Lots[0].ExpiresOn = new DateOnly(2026, 11, 24);
        size.Lots[1].Sheets = 6;
        await db.SaveChangesAsync();
        var line = (await room.StockShelf.ReadAsync()).SelectMany(m => m.Sizes).First();
        Assert.Equal(6, line.Free);
        Assert.Equal(
            ["6 sheets will be left, fewer than the least level of 10: order now.",
             "Lot L-2331 expired on 24 Nov 2026: its 30 sheets are not used any more. Count them as 0 when they are thrown away."],
            line.Warnings);
        // An expired lot is not taken.
        var order = await room.OrderAsync(["Cyan"], acrossMm: 860, aroundMm: 800);
        Assert.Equal("L-2334", order.Sheets.Single().Lot);
    }

    [Fact]
    public async Task Receive_AddsToALotThatIsKnown()
    {
        await using var room = await RoomFixture.CreateAsync();
        await using var db = room.CreateDbContext();
        var size = await db.StockSizes.OrderBy(s => s.Id).FirstAsync();
        await room.Stock.ReceiveAsync(size.Id, " L-2331 ", 5, null, "CSR");
        await room.Stock.ReceiveAsync(size.Id, "N-1", 7, new DateOnly(2027, 5, 1), "CSR");
        var lots = await db.StockLots.AsNoTracking().Where(l => l.StockSizeId == size.Id).OrderBy(l => l.Id).Select(l => new { l.Lot, l.Sheets }).ToListAsync();
        Assert.Equal([("L-2331", 35), ("L-2334", 40), ("N-1", 7)], lots.Select(l => (l.Lot, l.Sheets)));
        Assert.Contains(await db.AuditEntries.ToListAsync(), a => a is { Key: "lot L-2331", Field: "Sheets", From: "30", To: "35", By: "CSR" });
    }

    [Theory]
    [InlineData("", 5, null, "Type the lot")]
    [InlineData("X", 0, null, "how many sheets came")]
    [InlineData("X", 5, "2026-11-24", "expired already")]
    public async Task Receive_WhatCannotBeRight_IsRefused(string lot, int sheets, string? expires, string sentence)
    {
        await using var room = await RoomFixture.CreateAsync();
        var day = expires is null ? (DateOnly?)null : DateOnly.Parse(expires, System.Globalization.CultureInfo.InvariantCulture);
        var refused = await Assert.ThrowsAsync<PlateRoomException>(() => room.Stock.ReceiveAsync(1, lot, sheets, day, "CSR"));
        Assert.Contains(sentence, refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ThrownAwayRemnant_IsNotUsedAgain()
    {
        await using var room = await RoomFixture.CreateAsync();
        await room.OrderAsync(["Cyan"], acrossMm: 500);
        var remnant = Assert.Single((await room.StockShelf.ReadAsync()).SelectMany(m => m.Remnants));
        await Assert.ThrowsAsync<PlateRoomException>(() => room.Stock.ThrowAwayAsync(remnant.Id, " ", "CSR"));
        await room.Stock.ThrowAwayAsync(remnant.Id, "bent corner", "CSR");
        Assert.Empty((await room.StockShelf.ReadAsync()).SelectMany(m => m.Remnants));
        Assert.Equal("", (await room.OrderAsync(["Cyan"], acrossMm: 500)).Sheets.Single().RemnantMark);
    }
}

using System.Net;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Exchange.Status;
using PlateTickets.Tickets.Orders;

namespace PlateTickets.Web.Tests.Exchange;

/// <summary>What a customer sees under a secret address, and what nobody else does.</summary>
public sealed class StatusPageTests(HttpRoom room) : IClassFixture<HttpRoom>
{
    [Fact]
    public async Task TheAddress_ShowsTheOrderInPlainWords_AndNothingOfTheRoom()
    {
        var (order, token) = await LinkAsync();
        using var stranger = new HttpClient { BaseAddress = room.Http.BaseAddress };
        using var answer = await stranger.GetAsync(Urls.Status(token));
        var page = await answer.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains(order.Title, page, StringComparison.Ordinal);
        Assert.Contains("The plates are being made", page, StringComparison.Ordinal);
        await using var db = await room.Server.Services.GetRequiredService<IDbContextFactory<PlateRoomDb>>().CreateDbContextAsync();
        foreach (var secret in await db.Customers.Select(c => c.Name).Concat(db.Presses.Select(p => p.Name)).Concat(db.Materials.Select(m => m.Name)).Concat(db.Equipment.Select(e => e.Name)).ToListAsync())
        {
            Assert.DoesNotContain(secret, page, StringComparison.OrdinalIgnoreCase);
        }

        Assert.True(answer.Headers.CacheControl!.NoStore);
        Assert.Equal("no-referrer", answer.Headers.GetValues("Referrer-Policy").Single());
        Assert.Contains("noindex", answer.Headers.GetValues("X-Robots-Tag").Single(), StringComparison.Ordinal);
        // It opens no circuit: a stranger costs the room one request.
        Assert.DoesNotContain("Connecting to the server", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AnEndedAddress_AndOneThatNeverWas_LookTheSame()
    {
        var (order, token) = await LinkAsync();
        var links = room.Server.Services.GetRequiredService<StatusLinks>();
        Assert.Equal(token, await links.MakeAsync(order.Number, "Test"));
        await links.EndAsync(order.Number, "Test");
        using var stranger = new HttpClient { BaseAddress = room.Http.BaseAddress };
        foreach (var wrong in new[] { token, "nothing", new string('x', 5000) })
        {
            using var answer = await stranger.GetAsync(Urls.Status(wrong));
            Assert.Equal(HttpStatusCode.Gone, answer.StatusCode);
            Assert.Contains("No such order", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        }

        Assert.NotEqual(token, await links.MakeAsync(order.Number, "Test"));
    }

    [Fact]
    public async Task TheDatabase_HoldsNoTokenInTheClear()
    {
        var (order, token) = await LinkAsync();
        await using var db = await room.Server.Services.GetRequiredService<IDbContextFactory<PlateRoomDb>>().CreateDbContextAsync();
        var link = await db.StatusLinks.OrderByDescending(l => l.Id).FirstAsync(l => l.OrderId == order.Id);
        Assert.DoesNotContain(token, link.Token + link.Hash, StringComparison.Ordinal);
        Assert.DoesNotContain(await db.AuditEntries.Where(a => a.Record == nameof(StatusLink)).ToListAsync(), a => $"{a.From}{a.To}".Contains(token, StringComparison.Ordinal));
    }

    private async Task<(Order Order, string Token)> LinkAsync()
    {
        await using var db = await room.Server.Services.GetRequiredService<IDbContextFactory<PlateRoomDb>>().CreateDbContextAsync();
        var order = await db.Orders.Where(o => o.Ticket!.State == TicketState.InWork).OrderBy(o => o.Id).FirstAsync();
        return (order, await room.Server.Services.GetRequiredService<StatusLinks>().MakeAsync(order.Number, "Test"));
    }
}

using System.Collections.Concurrent;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets;

namespace PlateTickets.Web.Tests;

/// <summary>Scans over HTTP as tablets send them, and what was answered to each.</summary>
internal sealed class Scans(HttpClient http)
{
    private const string By = "Tablet of the test";

    private static readonly string[] Machines = ["frame-1", "frame-2", "imager-a", "line-washer", "dryer", "finisher"];

    private List<string>? _sheets;
    private int _next;

    /// <summary>The outcome that was told, by the scan's id.</summary>
    public ConcurrentDictionary<Guid, string> Answered { get; } = new();

    /// <summary>Scans that were not taken yet.</summary>
    public ConcurrentDictionary<Guid, object> Open { get; } = new();

    public async Task SendAsync(int count)
    {
        for (var i = 0; i < count; i++)
        {
            await SendAsync(await NewAsync());
        }
    }

    public async Task SendAgainAsync()
    {
        foreach (var id in Open.Keys)
        {
            await SendAsync(id);
        }
    }

    /// <summary>Sends more until one is not taken.</summary>
    /// <returns>The problem that was answered.</returns>
    public async Task<JsonElement> UntilRefusedAsync(int most)
    {
        for (var i = 0; i < most; i++)
        {
            if (await SendAsync(await NewAsync()) is { } problem)
            {
                return problem;
            }
        }

        throw new InvalidOperationException($"All of {most} scans were taken.");
    }

    /// <summary>Every scan that was answered is in the database, once, as it was told, and no other.</summary>
    public async Task CheckAsync(RoomServer room)
    {
        await using var db = await room.Services.GetRequiredService<IDbContextFactory<PlateRoomDb>>().CreateDbContextAsync();
        var stored = await db.Scans.AsNoTracking().Where(s => s.By == By).ToDictionaryAsync(s => s.Id, s => $"{s.Outcome}");
        Assert.Equal(Answered.OrderBy(a => a.Key), stored.OrderBy(s => s.Key));
    }

    /// <summary>Numbers of the sheets on the board, which is read a moment after the start.</summary>
    public static async Task<List<string>> SheetsAsync(HttpClient http)
    {
        for (var i = 0; i < 1200; i++)
        {
            var board = await http.GetFromJsonAsync<JsonElement>("/api/v1/board");
            if (board.GetProperty("sheets").GetArrayLength() > 0)
            {
                return [.. board.GetProperty("sheets").EnumerateArray().Select(s => s.GetProperty("number").GetString()!)];
            }

            await Task.Delay(50);
        }

        throw new InvalidOperationException("The board stays empty.");
    }

    private async Task<Guid> NewAsync()
    {
        _sheets ??= await SheetsAsync(http);
        var (id, at) = (Guid.NewGuid(), Interlocked.Increment(ref _next));
        Open[id] = new
        {
            id,
            code = _sheets[at % _sheets.Count],
            equipment = Machines[at / 3 % Machines.Length],
            action = at % 2 == 0 ? "Start" : "Finish",
            by = By,
            confirmed = true,
            ticked = new[] { "CoverFilmOff", "ClampsClosed", "PlainPunch", "PinBarLocked" },
        };
        return id;
    }

    /// <summary>Null when it was taken.</summary>
    public async Task<JsonElement?> SendAsync(Guid id)
    {
        using var reply = await http.PostAsJsonAsync("/api/v1/scans", Open[id]);
        var answer = await reply.Content.ReadFromJsonAsync<JsonElement>();
        if (reply.StatusCode is HttpStatusCode.OK or HttpStatusCode.Conflict)
        {
            Answered[id] = answer.GetProperty("outcome").GetString()!;
            Open.TryRemove(id, out _);
            return null;
        }

        return answer;
    }
}

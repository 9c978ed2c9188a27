using System.Buffers.Binary;
using System.Data.Common;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Accounts.Audit;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Demo;

namespace PlateTickets.Tickets.Tests.Accounts;

public sealed class AuditChainTests : IAsyncLifetime
{
    private const int Written = 12;

    private RoomFixture _room = null!;

    public async Task InitializeAsync()
    {
        _room = await RoomFixture.CreateAsync(RoomStartKind.Empty);
        for (var i = await CountAsync(); i < Written; i++)
        {
            await new AuditLog(_room, _room.Clock).WriteAsync("Ada", "Account", $"person {i}", "signed in", i % 2 == 0 ? null : "from the office, “quoted”, 100 %");
        }
    }

    public async Task DisposeAsync() => await _room.DisposeAsync();

    [Fact]
    public async Task UntouchedTrail_IsWhole_AndCountsItsEntries()
    {
        var verdict = await VerifyAsync();
        Assert.Null(verdict.Wrong);
        Assert.Equal(Written, verdict.Figures.Count);
    }

    /// <summary>
    /// The same figures by another hand: the content put together as AuditHasher's comment says, hashed step by step. FIPS 180-4's example
    /// SHA-256("abc") shows that the hash used here is that one.
    /// </summary>
    [Fact]
    public async Task Head_IsSha256OverTheChain()
    {
        Assert.Equal("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", Convert.ToHexStringLower(SHA256.HashData("abc"u8)));
        await using var db = _room.CreateDbContext();
        var hash = new byte[32];
        foreach (var entry in await db.AuditEntries.OrderBy(e => e.Id).ToListAsync())
        {
            var content = new List<byte> { 1 };
            content.AddRange(hash);
            content.AddRange(BitConverter.GetBytes(BinaryPrimitives.ReverseEndianness(entry.Id)));
            content.AddRange(BitConverter.GetBytes(BinaryPrimitives.ReverseEndianness((long)(entry.AtUtc - DateTime.UnixEpoch).TotalMicroseconds)));
            foreach (var text in new[] { entry.By, entry.Record, entry.Key, entry.Field, entry.From, entry.To })
            {
                content.AddRange(BitConverter.GetBytes(BinaryPrimitives.ReverseEndianness(text is null ? -1 : Encoding.UTF8.GetByteCount(text))));
                content.AddRange(Encoding.UTF8.GetBytes(text ?? ""));
            }

            hash = SHA256.HashData([.. content]);
        }

        Assert.Equal(Convert.ToHexStringLower(hash), (await VerifyAsync()).Figures.Hash);
    }

    [Theory]
    [InlineData("UPDATE AuditEntries SET \"To\" = 'x' WHERE Id = 3", "never changed")]
    [InlineData("UPDATE AuditEntries SET Hash = zeroblob(32) WHERE Id = 3", "never changed")]
    [InlineData("DELETE FROM AuditEntries WHERE Id = 3", "never deleted")]
    [InlineData("INSERT OR REPLACE INTO AuditEntries (Id, AtUtc, \"By\", Record, \"Key\", Field, Hash) VALUES (3, '2026-01-01', 'a', 'b', 'c', 'd', zeroblob(32))", "after all others")]
    [InlineData("UPDATE AuditHeads SET \"Count\" = 2", "goes forward only")]
    [InlineData("DELETE FROM AuditHeads", "never deleted")]
    public async Task Database_RefusesToChangeTheTrail(string sql, string sentence)
    {
        var refused = await Assert.ThrowsAnyAsync<DbException>(() => RunAsync(sql));
        Assert.Contains(sentence, refused.Message, StringComparison.Ordinal);
        Assert.True((await VerifyAsync()).Whole);
    }

    [Theory]
    [InlineData("UPDATE AuditEntries SET \"By\" = 'Eve' WHERE Id = 5", 5, "Entry 5 was changed")]
    [InlineData("UPDATE AuditEntries SET \"To\" = NULL WHERE Id = 6", 6, "Entry 6 was changed")]
    [InlineData("UPDATE AuditEntries SET \"From\" = '' WHERE Id = 6", 6, "Entry 6 was changed")]
    [InlineData("UPDATE AuditEntries SET AtUtc = '2026-11-25 08:00:00.000001' WHERE Id = 7", 7, "Entry 7 was changed")]
    [InlineData("UPDATE AuditEntries SET \"Key\" = Record, Record = \"Key\" WHERE Id = 8", 8, "Entry 8 was changed")]
    [InlineData("UPDATE AuditEntries SET \"By\" = 'Eve' WHERE Id = 12", 12, "Entry 12 does not follow")]
    [InlineData("UPDATE AuditEntries SET Hash = X'' WHERE Id = 5", 5, "Entry 5 has no hash")]
    [InlineData("DELETE FROM AuditEntries WHERE Id = 5", 6, "entry 5 is missing")]
    [InlineData("DELETE FROM AuditEntries WHERE Id IN (5, 6, 7)", 8, "entries 5 to 7 are missing")]
    [InlineData("DELETE FROM AuditEntries WHERE Id = 1", 2, "entry 1 is missing")]
    [InlineData("DELETE FROM AuditEntries WHERE Id = 5; UPDATE AuditEntries SET Id = Id - 1 WHERE Id > 5; UPDATE AuditHeads SET \"Count\" = \"Count\" - 1, LastId = LastId - 1", 5, "Entry 5 does not follow")]
    [InlineData("UPDATE AuditEntries SET Id = Id + 100 WHERE Id > 4; INSERT INTO AuditEntries (Id, AtUtc, \"By\", Record, \"Key\", Field, \"From\", \"To\", Hash) SELECT 5, AtUtc, 'Eve', Record, \"Key\", Field, \"From\", \"To\", Hash FROM AuditEntries WHERE Id = 4; UPDATE AuditEntries SET Id = Id - 99 WHERE Id > 100; UPDATE AuditHeads SET \"Count\" = \"Count\" + 1, LastId = LastId + 1", 5, "Entry 5")]
    [InlineData("INSERT INTO AuditEntries (Id, AtUtc, \"By\", Record, \"Key\", Field, \"From\", \"To\", Hash) SELECT 13, AtUtc, 'Eve', Record, \"Key\", Field, \"From\", \"To\", Hash FROM AuditEntries WHERE Id = 4", null, "Entry 13 lies after the head")]
    [InlineData("INSERT INTO AuditEntries (Id, AtUtc, \"By\", Record, \"Key\", Field, \"From\", \"To\", Hash) SELECT -3, AtUtc, 'Eve', Record, \"Key\", Field, \"From\", \"To\", Hash FROM AuditEntries WHERE Id = 4", -3, "Entry -3 was put in")]
    [InlineData("UPDATE AuditEntries SET Id = 1000 WHERE Id = 5; UPDATE AuditEntries SET Id = 5 WHERE Id = 6; UPDATE AuditEntries SET Id = 6 WHERE Id = 1000", 5, "Entry 5 does not follow")]
    [InlineData("DELETE FROM AuditEntries WHERE Id > 9", null, "cut off at the end")]
    [InlineData("DELETE FROM AuditEntries", null, "cut off at the end")]
    [InlineData("DELETE FROM AuditHeads", null, "head of the audit trail is missing")]
    [InlineData("UPDATE AuditHeads SET Hash = zeroblob(32)", null, "is not the one that the head tells of")]
    public async Task TamperedTrail_ShowsWhere(string sql, int? id, string sentence)
    {
        await DropGuardsAsync();
        await RunAsync(sql);
        var verdict = await VerifyAsync();
        Assert.Contains(sentence, verdict.Wrong, StringComparison.Ordinal);
        Assert.Equal(id, verdict.WrongId);
    }

    [Fact]
    public async Task CutEnd_WithTheHeadSetBack_ShowsAgainstNotedFiguresOnly()
    {
        var before = (await VerifyAsync()).Figures;
        await DropGuardsAsync();
        await RunAsync("""
            DELETE FROM AuditEntries WHERE Id > 9;
            UPDATE AuditHeads SET "Count" = 9, LastId = 9, Hash = (SELECT Hash FROM AuditEntries WHERE Id = 9);
            """);
        Assert.True((await VerifyAsync()).Whole);
        Assert.Contains($"{Written} were noted earlier", (await VerifyAsync(before)).Wrong, StringComparison.Ordinal);
    }

    [Fact]
    public async Task TrailWrittenAnew_ShowsAgainstNotedFiguresOnly()
    {
        var before = (await VerifyAsync()).Figures;
        await DropGuardsAsync();
        // As somebody would who knows the program: one entry changed, and everything chained again.
        await RunAsync("UPDATE AuditEntries SET \"By\" = 'Eve' WHERE Id = 5; UPDATE AuditEntries SET Hash = X''; UPDATE AuditHeads SET \"Count\" = 0, LastId = 0, Hash = zeroblob(32)");
        await using (var db = _room.CreateDbContext())
        {
            Assert.Equal(Written, await AuditChain.ChainEarlierAsync(db));
        }

        Assert.True((await VerifyAsync()).Whole);
        var verdict = await VerifyAsync(before);
        Assert.Equal(Written, verdict.WrongId);
        Assert.Contains("written anew", verdict.Wrong, StringComparison.Ordinal);
    }

    [Fact]
    public async Task NotedFigures_HoldWhileTheTrailGrows()
    {
        var before = (await VerifyAsync()).Figures;
        await new AuditLog(_room, _room.Clock).WriteAsync("Ada", "Account", "ada", "signed out");
        var verdict = await VerifyAsync(before);
        Assert.True(verdict.Whole, verdict.Wrong);
        Assert.Equal(Written + 1, verdict.Figures.Count);
    }

    [Fact]
    public async Task ManyWritersAtOnce_MakeOneChain()
    {
        var log = new AuditLog(_room, _room.Clock);
        await Task.WhenAll(Enumerable.Range(0, 8).Select(writer => Task.Run(async () =>
        {
            for (var i = 0; i < 25; i++)
            {
                await log.WriteAsync($"writer {writer}", "Account", $"{i}", "signed in");
            }
        })));
        var verdict = await VerifyAsync();
        Assert.Null(verdict.Wrong);
        Assert.Equal(Written + 200, verdict.Figures.Count);
    }

    [Fact]
    public async Task ValuesThatNoDatabaseKeepsWell_AreStillWhole()
    {
        await using (var db = _room.CreateDbContext())
        {
            db.ActingAs = "Zoë \ud83d\udc69\u200d\ud83d\udd27";
            db.Note("Account", new string('k', 500), "tried", "nul \0 lone \ud800 " + string.Concat(Enumerable.Repeat("\ud83d\ude00", 10_000)));
            await db.SaveChangesAsync();
        }

        Assert.Null((await VerifyAsync()).Wrong);
        await using var read = _room.CreateDbContext();
        var entry = await read.AuditEntries.OrderBy(e => e.Id).LastAsync();
        Assert.Equal(400, entry.Key.Length);
        Assert.InRange(entry.To!.Length, AuditEntry.LongestValue - 1, AuditEntry.LongestValue);
        Assert.Contains("20013 characters, SHA-256", entry.To, StringComparison.Ordinal);
    }

    /// <summary>A room as it was before the chain: the migrations up to then, entries with a gap between their numbers, then the rest.</summary>
    [Fact]
    public async Task RoomOfAnEarlierVersion_IsChainedAtTheFirstStart()
    {
        var file = Path.Combine(Path.GetTempPath(), $"plate-room-{Guid.NewGuid():N}.db");
        try
        {
            await using var db = new PlateRoomDb(new DbContextOptionsBuilder<PlateRoomDb>()
                .UseSqlite($"Data Source={file}", sqlite => sqlite.MigrationsAssembly("PlateTickets.Migrations.Sqlite")).Options);
            await db.GetService<IMigrator>().MigrateAsync("SeparationFiles");
            await db.Database.ExecuteSqlRawAsync("""
                INSERT INTO AuditEntries (Id, AtUtc, "By", Record, "Key", Field, "From", "To") VALUES
                    (1, '2026-11-20 08:00:00.1234567', 'Ada', 'Order', 'T1', '(new)', NULL, NULL),
                    (2, '2026-11-20 08:01:00', 'Ada', 'Order', 'T1', 'Title', 'a', 'b'),
                    (7, '2026-11-20 08:02:00', 'Bob', 'Order', 'T2', '(new)', NULL, NULL)
                """);
            await db.Database.MigrateAsync();
            Assert.Equal(3, await AuditChain.ChainEarlierAsync(db));
            Assert.Equal(0, await AuditChain.ChainEarlierAsync(db));
            await db.Database.OpenConnectionAsync();
            var verdict = await new AuditCheck(db.Database.GetDbConnection()).WalkAsync();
            Assert.Null(verdict.Wrong);
            // The three, and the entry that tells that they were chained.
            Assert.Equal(4, verdict.Figures.Count);
            Assert.Equal(8, await db.AuditEntries.MaxAsync(e => e.Id));
        }
        finally
        {
            SqliteConnection.ClearAllPools();
            File.Delete(file);
        }
    }

    private async Task<int> CountAsync()
    {
        await using var db = _room.CreateDbContext();
        return await db.AuditEntries.CountAsync();
    }

    private async Task<AuditVerdict> VerifyAsync(AuditFigures? noted = null)
    {
        await using var db = _room.CreateDbContext();
        await db.Database.OpenConnectionAsync();
        return await new AuditCheck(db.Database.GetDbConnection()).WalkAsync(noted);
    }

    private async Task RunAsync(string sql)
    {
        await using var db = _room.CreateDbContext();
        await db.Database.OpenConnectionAsync();
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = db.IsPostgreSql() ? Dialect(sql) : sql;
        await command.ExecuteNonQueryAsync();
    }

    private async Task DropGuardsAsync()
    {
        await using var db = _room.CreateDbContext();
        if (db.IsPostgreSql())
        {
            await RunAsync("DROP FUNCTION \"RefuseChange\"() CASCADE; DROP FUNCTION \"OnlyAtTheEnd\"() CASCADE");
            return;
        }

        foreach (var trigger in await db.Database.SqlQueryRaw<string>("SELECT name AS Value FROM sqlite_master WHERE type = 'trigger'").ToListAsync())
        {
            await RunAsync($"DROP TRIGGER \"{trigger}\"");
        }
    }

    private static string Dialect(string sql) => Regex.Replace(sql, "(?<![\"'])\\b(AuditEntries|AuditHeads|Id|AtUtc|Record|Field|Hash|LastId)\\b", "\"$1\"")
        .Replace("zeroblob(32)", "decode(repeat('00', 32), 'hex')", StringComparison.Ordinal)
        .Replace("X''", "''::bytea", StringComparison.Ordinal)
        .Replace("INSERT OR REPLACE", "INSERT", StringComparison.Ordinal);
}

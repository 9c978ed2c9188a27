using System.Collections.Concurrent;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Orders;
using PlateTickets.Web.Startup;
using PlateTickets.Web.Startup.Backups;
using PlateTickets.Web.Startup.Commands;

namespace PlateTickets.Web.Tests;

/// <summary>Backups of a real room with commands as a person would type them.</summary>
public sealed class BackupTests : IAsyncLifetime
{
    private readonly string _root = Path.Combine(Path.GetTempPath(), $"plate-room-{Guid.NewGuid():N}");

    private string Data => Path.Combine(_root, "data");

    private string Shelf => Path.Combine(_root, "backups");

    public async Task InitializeAsync()
    {
        await using var app = PlateRoomApp.Build(Settings("--room", "empty"));
        await PlateRoomApp.PrepareAsync(app);
        Directory.CreateDirectory(Path.Combine(Data, "keys"));
        await File.WriteAllTextAsync(Path.Combine(Data, "keys", "key-1.xml"), "<key />");
        // Named by its SHA-256 as the shelf of arrived files does it: that of three bytes “abc” (FIPS 180-4).
        var taken = Path.Combine(Data, "taken", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        Directory.CreateDirectory(taken);
        await File.WriteAllTextAsync(Path.Combine(taken, "T1_Cyan.tif"), "abc");
        await File.WriteAllTextAsync(Path.Combine(Data, "taken", "half.taking"), "half a file");
        Directory.CreateDirectory(Path.Combine(Data, "documents"));
        await File.WriteAllTextAsync(Path.Combine(Data, "documents", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"), "abc");
        await File.WriteAllTextAsync(Path.Combine(Data, "documents", "half.coming"), "half a file");
        await File.WriteAllTextAsync(Path.Combine(Data, "incoming", "half"), "half an upload");
    }

    public Task DisposeAsync()
    {
        SqliteConnection.ClearAllPools();
        Directory.Delete(_root, recursive: true);
        return Task.CompletedTask;
    }

    [Fact]
    public async Task BackupWhileAWriterCommits_HasEveryCommitAcknowledgedBefore_AndRestores()
    {
        await using var app = PlateRoomApp.Build(Settings());
        var databases = app.Services.GetRequiredService<IDbContextFactory<PlateRoomDb>>();
        var acknowledged = new ConcurrentQueue<string>();
        using var stop = new CancellationTokenSource();
        var writers = Enumerable.Range(0, 3).Select(w => Task.Run(async () =>
        {
            for (var i = 0; !stop.IsCancellationRequested; i++)
            {
                var name = $"customer {w}.{i}";
                await using var db = await databases.CreateDbContextAsync();
                db.Customers.Add(new Customer { Name = name });
                await db.SaveChangesAsync();
                acknowledged.Enqueue(name);
            }
        })).ToList();
        await UntilAsync(() => acknowledged.Count > 50);

        var before = acknowledged.ToList();
        var made = await app.Services.GetRequiredService<BackupMaker>().MakeAsync(Shelf, "test");
        var during = acknowledged.Count - before.Count;
        await stop.CancelAsync();
        await Task.WhenAll(writers);
        Assert.True(made.Checked.Whole, string.Join(" ", made.Checked.Faults));
        Assert.True(during > 0, "The writers stood still while the backup was made.");

        var restored = Path.Combine(_root, "restored");
        var (code, output, errors) = await CommandAsync("restore", made.Folder, "--data", restored);
        Assert.True(code == 0, errors + output);
        var names = Names(restored);
        Assert.Empty(before.Except(names));
        // Each in the order it was committed: no commit is there whose forerunner by the same writer is missing.
        foreach (var writer in names.Where(n => n.StartsWith("customer ", StringComparison.Ordinal)).GroupBy(n => n.Split('.')[0]))
        {
            Assert.Equal(writer.Count(), writer.Max(n => int.Parse(n.Split('.')[1], CultureInfo.InvariantCulture)) + 1);
        }

        Assert.Equal("<key />", await File.ReadAllTextAsync(Path.Combine(restored, "keys", "key-1.xml")));
        Assert.Single(Directory.EnumerateFiles(Path.Combine(restored, "taken"), "*", SearchOption.AllDirectories));
        Assert.Equal(0, (await CommandAsync("audit", "verify", "--data", restored)).Code);
    }

    [Fact]
    public async Task Backup_HoldsWhatARestoreNeeds_AndNothingElse()
    {
        var folder = await BackUpAsync();
        var files = Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(folder, f).Replace('\\', '/')).Order(StringComparer.Ordinal);
        Assert.Equal(
            ["checked.json", "documents/ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", "keys/key-1.xml", "manifest.json", "manifest.sha256", "plate-room.db", "taken/ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad/T1_Cyan.tif"],
            files);
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute, File.GetUnixFileMode(folder));
            // The sums are also right by another program (GNU coreutils).
            Assert.Contains("manifest.json: OK", Tool.Run("coreutils", "sh", "-c", $"cd '{folder}' && sha256sum -c manifest.sha256"), StringComparison.Ordinal);
            var manifest = BackupManifest.Read(folder);
            Assert.All(manifest.Files, f => Assert.StartsWith(f.Sha256, Tool.Run("coreutils", "sha256sum", Path.Combine(folder, f.Path)), StringComparison.Ordinal));
        }
    }

    public static TheoryData<string, string> Damages => new()
    {
        { "no manifest", "has no manifest.json" }, { "no sum", "has no manifest.sha256" }, { "changed manifest", "is damaged: its SHA-256" },
        { "no database", "plate-room.db is missing" }, { "short database", "bytes where" }, { "flipped bit", "plate-room.db is damaged" },
        { "no key", "keys/key-1.xml is missing" }, { "changed key", "keys/key-1.xml is damaged" }, { "row deleted", "Table Customers has 0 rows where the room had 1" },
        { "entry changed", "The audit trail does not fit" }, { "trail cut", "The audit trail does not fit" }, { "dangling row", "refers to a row of" }, { "page destroyed", "The database cannot be read" },
        { "arrived file", "is not in the backup" }, { "newer program", "is newer than this one" }, { "outside", "outside the backup" }, { "unfinished", "has no manifest.json" },
    };

    [Theory]
    [MemberData(nameof(Damages))]
    public async Task DamagedBackup_IsRefusedWithASentence(string damage, string sentence)
    {
        await RunSqlAsync(Data, "INSERT INTO Customers (Name) VALUES ('Only One')");
        var folder = await BackUpAsync();
        await DamageAsync(folder, damage);
        var restored = Path.Combine(_root, "restored");
        var (code, _, errors) = await CommandAsync("restore", folder, "--data", restored);
        Assert.Equal(1, code);
        Assert.Contains(sentence, errors, StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(restored, "plate-room.db")));
        if (damage != "newer program")
        {
            Assert.Equal(1, (await CommandAsync("check", folder)).Code);
        }
    }

    [Fact]
    public async Task Restore_IntoAFolderWithARoom_NeedsTheOption_AndKeepsTheOldOneBeside()
    {
        var folder = await BackUpAsync();
        await RunSqlAsync(Data, "INSERT INTO Customers (Name) VALUES ('After the backup')");
        SqliteConnection.ClearAllPools();
        var (code, _, errors) = await CommandAsync("restore", folder, "--data", Data);
        Assert.Equal(1, code);
        Assert.Contains("is not empty", errors, StringComparison.Ordinal);
        Assert.Contains("After the backup", Names(Data));

        (code, var output, errors) = await CommandAsync("restore", folder, "--keep-old", "--data", Data);
        Assert.True(code == 0, errors);
        Assert.DoesNotContain("After the backup", Names(Data));
        var old = Assert.Single(Directory.GetDirectories(_root, "data.before-restore-*"));
        Assert.Contains(old, output, StringComparison.Ordinal);
        Assert.Contains("After the backup", Names(old));
    }

    [Fact]
    public async Task RunningProgram_KeepsARestoreAndASecondOneAway_ButNotABackup()
    {
        await using var app = PlateRoomApp.Build(Settings());
        await app.StartAsync();
        var folder = await BackUpAsync();
        var (code, _, errors) = await CommandAsync("restore", folder, "--keep-old", "--data", Data);
        Assert.Equal(1, code);
        Assert.Contains("The program is running on", errors, StringComparison.Ordinal);
        await using (var second = PlateRoomApp.Build(Settings()))
        {
            var refused = await Assert.ThrowsAsync<InvalidOperationException>(() => second.StartAsync());
            Assert.Contains("already running on", refused.Message, StringComparison.Ordinal);
        }

        await app.StopAsync();
        Assert.Equal(0, (await CommandAsync("restore", folder, "--keep-old", "--data", Data)).Code);
    }

    [Fact]
    public async Task InterruptedRestore_IsNoRoom()
    {
        var halfway = Path.Combine(_root, "halfway");
        Directory.CreateDirectory(halfway);
        await File.WriteAllTextAsync(Path.Combine(halfway, BackupRestore.Restoring), "half a database");
        await using var app = PlateRoomApp.Build(["--data", halfway, "--urls", "http://127.0.0.1:0"]);
        var refused = await Assert.ThrowsAsync<InvalidOperationException>(() => PlateRoomApp.PrepareAsync(app));
        Assert.Contains("was interrupted", refused.Message, StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(halfway, "plate-room.db")));
    }

    [Fact]
    public async Task Backup_IntoTheDataFolder_OrWithoutAFolder_IsRefused()
    {
        var (code, _, errors) = await CommandAsync("backup", "--to", Path.Combine(Data, "backups"), "--data", Data);
        Assert.Equal(1, code);
        Assert.Contains("lies inside the data folder", errors, StringComparison.Ordinal);
        (code, _, errors) = await CommandAsync("backup", "--data", Data);
        Assert.Equal(1, code);
        Assert.Contains("--to FOLDER", errors, StringComparison.Ordinal);
        (code, _, errors) = await CommandAsync("backup", "--to", Shelf, "--data", Path.Combine(_root, "nothing"));
        Assert.Equal(1, code);
        Assert.Contains("There is no room in", errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Schedule_MakesBackups_KeepsTheNewest_AndTheFirstOfEachWeek()
    {
        await using var server = await RoomServer.StartAsync("empty", null, "--Backup:Folder", Shelf, "--Backup:EveryHours", "24", "--Backup:Keep", "3", "--Backup:KeepWeeks", "2");
        for (var day = 0; day < 24; day++)
        {
            var made = day + 1;
            await UntilAsync(() => BackupShelf.List(Shelf).Count(b => b.Good) >= Math.Min(made, 3) && Newest() >= new DateTime(2026, 11, 25).AddDays(day));
            // Once more in small steps, so that the loop, which looks every minute, has come by again.
            for (var hour = 0; hour < 24; hour++)
            {
                server.Clock.Advance(TimeSpan.FromHours(1));
                await Task.Delay(5);
            }
        }

        await UntilAsync(() => Newest() >= new DateTime(2026, 12, 18));
        await UntilAsync(() => BackupShelf.List(Shelf).Count == 5);
        var days = BackupShelf.List(Shelf).Select(b => DateOnly.FromDateTime(b.Manifest!.MadeUtc)).ToList();
        Assert.True(days[0].DayNumber - days[2].DayNumber <= 3, string.Join(", ", days));
        // The first of the two weeks before: Mondays, since there was one each day.
        Assert.All(days.Skip(3), d => Assert.InRange(d.DayOfWeek, DayOfWeek.Monday, DayOfWeek.Tuesday));

        DateTime Newest() => BackupShelf.List(Shelf).FirstOrDefault(b => b.Good)?.Manifest!.MadeUtc ?? DateTime.MinValue;
    }

    [Fact]
    public void Surplus_NeverCountsWhatIsNotKnownToBeGood()
    {
        var monday = new DateTime(2026, 11, 23, 3, 0, 0, DateTimeKind.Utc);
        KeptBackup At(int daysAgo, bool good = true)
        {
            var made = monday.AddDays(-daysAgo);
            return new KeptBackup(
                $"plate-room-{made:yyyyMMddTHHmmssZ}", new BackupManifest(1, made, "", "", "", new Dictionary<string, long>(), 0, "", []),
                new BackupChecked(made, good ? [] : ["damaged"]), null);
        }

        // Newest first: two damaged ones do not push good ones out.
        var kept = new[] { At(0, good: false), At(1), At(2, good: false), At(3), At(4), At(5, good: false), At(6), At(8), At(13), At(20) };
        var gone = BackupShelf.Surplus(kept, keep: 2, weeks: 2).Select(b => (monday - b.Manifest!.MadeUtc).Days);
        Assert.Equal([4, 5, 8, 20], gone);
        Assert.Empty(BackupShelf.Surplus([At(0, good: false), At(1, good: false), At(2)], keep: 1, weeks: 0));
    }

    private static async Task DamageAsync(string folder, string damage)
    {
        string manifest = Path.Combine(folder, "manifest.json"), sum = Path.Combine(folder, "manifest.sha256"), database = Path.Combine(folder, "plate-room.db"), key = Path.Combine(folder, "keys", "key-1.xml");
        switch (damage)
        {
            case "no manifest" or "unfinished":
                File.Delete(manifest);
                break;
            case "no sum":
                File.Delete(sum);
                break;
            case "changed manifest":
                await File.WriteAllTextAsync(manifest, (await File.ReadAllTextAsync(manifest)).Replace("madeBy", "madeby", StringComparison.Ordinal));
                break;
            case "no database":
                File.Delete(database);
                break;
            case "short database":
                await using (var file = File.OpenWrite(database))
                {
                    file.SetLength(file.Length - 4096);
                }

                break;
            case "flipped bit":
                await FlipAsync(database, 5000, 1);
                break;
            case "no key":
                File.Delete(key);
                break;
            case "changed key":
                await File.WriteAllTextAsync(key, "<kex />");
                break;
            case "outside":
                await RewriteAsync(folder, m => m with { Files = [.. m.Files, new BackupFile("../../elsewhere", 1, "00")] });
                break;
            case "newer program":
                await RewriteAsync(folder, m => m with { Migration = "29991231000000_Later" });
                break;
            default:
                await DamageDatabaseAsync(folder, database, damage);
                // Somebody wrote the list anew as well: what the database itself proves must be enough.
                var (bytes, hash) = await DiskFile.SumAsync(database, CancellationToken.None);
                await RewriteAsync(folder, m => m with { Files = [.. m.Files.Select(f => f.Path == "plate-room.db" ? f with { Bytes = bytes, Sha256 = hash } : f)] });
                break;
        }
    }

    private static async Task DamageDatabaseAsync(string folder, string database, string damage)
    {
        if (damage == "page destroyed")
        {
            var root = await ScalarAsync(folder, "SELECT rootpage FROM sqlite_master WHERE name = 'IX_Customers_Name'");
            await FlipAsync(database, (root - 1) * 4096, 8);
            return;
        }

        await RunSqlAsync(folder, "PRAGMA foreign_keys=OFF; " + damage switch
        {
            "row deleted" => "DELETE FROM Customers",
            "entry changed" => "DROP TRIGGER AuditEntries_KeepContent; UPDATE AuditEntries SET \"By\" = 'Eve' WHERE Id = 2",
            "trail cut" => "DROP TRIGGER AuditEntries_KeepAll; DELETE FROM AuditEntries WHERE Id = (SELECT max(Id) FROM AuditEntries)",
            "dangling row" => "INSERT INTO Cylinder (PressId, Name, RepeatUm) VALUES (999, 'x', 1)",
            "arrived file" => "INSERT INTO ArrivedFiles (FileName, Sha256, FileBytes, ArrivedUtc, State, Sentence, TicketNumber, Colour, WidthUm, LengthUm, PixelsPerMm, Version) VALUES ('a.tif', 'ab', 1, '2026-01-01', 'Waiting', '', '', '', 1, 1, 1, 1)",
            _ => throw new ArgumentException(damage),
        });
    }

    private static async Task RewriteAsync(string folder, Func<BackupManifest, BackupManifest> change)
    {
        var manifest = change(BackupManifest.Read(folder));
        File.Delete(Path.Combine(folder, BackupManifest.Name));
        File.Delete(Path.Combine(folder, BackupManifest.SumName));
        manifest.Write(folder);
        await Task.CompletedTask;
    }

    private static async Task FlipAsync(string path, long at, int count)
    {
        await using var file = new FileStream(path, FileMode.Open, FileAccess.ReadWrite);
        var bytes = new byte[count];
        file.Position = at;
        await file.ReadExactlyAsync(bytes);
        file.Position = at;
        await file.WriteAsync(bytes.Select(b => (byte)(b ^ 0x41)).ToArray());
    }

    private async Task<string> BackUpAsync()
    {
        var (code, output, errors) = await CommandAsync("backup", "--to", Shelf, "--data", Data);
        Assert.True(code == 0, errors);
        return output.Split('\n')[0]["Backup: ".Length..].Trim();
    }

    private static async Task<(int Code, string Output, string Errors)> CommandAsync(params string[] args)
    {
        await using StringWriter output = new(CultureInfo.InvariantCulture), errors = new(CultureInfo.InvariantCulture);
        var code = await RoomCommands.RunAsync([.. args, "--urls", "http://127.0.0.1:0"], output, errors);
        return (code, output.ToString(), errors.ToString());
    }

    private string[] Settings(params string[] more) => ["--data", Data, "--urls", "http://127.0.0.1:0", "--Logging:LogLevel:Default", "Error", .. more];

    private static List<string> Names(string folder)
    {
        using var connection = BackupDatabase.Open(Path.Combine(folder, "plate-room.db"), SqliteOpenMode.ReadWrite);
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT Name FROM Customers";
        using var rows = command.ExecuteReader();
        var names = new List<string>();
        while (rows.Read())
        {
            names.Add(rows.GetString(0));
        }

        return names;
    }

    private static async Task RunSqlAsync(string folder, string sql)
    {
        await using var connection = BackupDatabase.Open(Path.Combine(folder, "plate-room.db"), SqliteOpenMode.ReadWrite);
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        await command.ExecuteNonQueryAsync();
    }

    private static async Task<long> ScalarAsync(string folder, string sql)
    {
        await using var connection = BackupDatabase.Open(Path.Combine(folder, "plate-room.db"), SqliteOpenMode.ReadOnly);
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        return (long)(await command.ExecuteScalarAsync())!;
    }

    private static async Task UntilAsync(Func<bool> happened)
    {
        for (var i = 0; i < 6000 && !happened(); i++)
        {
            await Task.Delay(10);
        }

        Assert.True(happened(), "It did not happen within a minute.");
    }
}

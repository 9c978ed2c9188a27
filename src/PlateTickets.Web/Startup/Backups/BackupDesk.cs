using Microsoft.Extensions.Options;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Startup.Backups;

/// <summary>Backups as people, commands and the schedule ask for them: one at a time, noted in the audit trail, old ones tidied away.</summary>
public sealed class BackupDesk(BackupMaker maker, BackupCheck check, IOptions<BackupOptions> options, RoomDatabase database, IWebHostEnvironment environment, AuditLog audit, TimeProvider clock) : IDisposable
{
    /// <summary>After a failure the next try is made this much later.</summary>
    public static readonly TimeSpan RetryAfter = TimeSpan.FromHours(1);

    private readonly SemaphoreSlim _one = new(1, 1);

    /// <summary>The folder of the settings; null without one, and on PostgreSQL, whose own tools make the backups.</summary>
    public string? Folder => options.Value.Folder.Length == 0 || database.IsPostgreSql ? null : Path.GetFullPath(options.Value.Folder, environment.ContentRootPath);

    public TimeSpan Every => TimeSpan.FromHours(options.Value.EveryHours);

    /// <summary>What went wrong last, and when; null once a backup succeeded.</summary>
    public (DateTime AtUtc, string Sentence)? Trouble { get; private set; }

    public bool IsBusy => _one.CurrentCount == 0;

    public IReadOnlyList<KeptBackup> List() => Folder is { } folder ? BackupShelf.List(folder) : [];

    /// <summary>When the schedule makes the next one; null without a folder.</summary>
    public DateTime? NextUtc(IReadOnlyList<KeptBackup> newestFirst)
    {
        if (Folder is null)
        {
            return null;
        }

        var due = newestFirst.FirstOrDefault(b => b.Good) is { } newest ? newest.Manifest!.MadeUtc + Every : clock.GetUtcNow().UtcDateTime;
        return Trouble is { } trouble && trouble.AtUtc + RetryAfter > due ? trouble.AtUtc + RetryAfter : due;
    }

    /// <summary>Makes a backup, checks it and tidies old ones away.</summary>
    /// <param name="into">Where; null for the folder of the settings. Old ones are tidied away there only.</param>
    /// <param name="by">Who asks for it.</param>
    /// <param name="cancel">Cancels.</param>
    /// <exception cref="PlateRoomException">It could not be made.</exception>
    public async Task<BackupMade> MakeAsync(string? into, string by, CancellationToken cancel = default)
    {
        database.RefuseServer("This backup");
        var folder = into ?? Folder ?? throw new PlateRoomException("No folder for backups is set: name one with --to FOLDER, or set Backup:Folder.");
        await _one.WaitAsync(cancel);
        try
        {
            var made = await maker.MakeAsync(folder, by, cancel);
            Trouble = made.Checked.Whole ? null : (clock.GetUtcNow().UtcDateTime, $"{Path.GetFileName(made.Folder)}: {string.Join(" ", made.Checked.Faults)}");
            await audit.WriteAsync(by, "Backup", Path.GetFileName(made.Folder), made.Checked.Whole ? "made a backup" : "made a backup that failed its check", $"in {folder}", cancel);
            if (into is null)
            {
                Tidy(folder);
            }

            return made;
        }
        catch (Exception e) when (e is PlateRoomException or IOException or UnauthorizedAccessException or Microsoft.Data.Sqlite.SqliteException)
        {
            Trouble = (clock.GetUtcNow().UtcDateTime, e.Message);
            throw e as PlateRoomException ?? new PlateRoomException($"The backup could not be made: {e.Message}");
        }
        finally
        {
            _one.Release();
        }
    }

    /// <summary>Checks a backup of the folder again.</summary>
    public Task<BackupChecked> CheckAsync(string name, CancellationToken cancel = default) =>
        check.CheckAsync(List().FirstOrDefault(b => b.Name == name)?.Folder ?? throw new PlateRoomException($"There is no backup {name} any more."), cancel);

    public void Dispose() => _one.Dispose();

    private void Tidy(string folder)
    {
        foreach (var backup in BackupShelf.Surplus(BackupShelf.List(folder), options.Value.Keep, options.Value.KeepWeeks))
        {
            BackupShelf.Delete(backup);
        }
    }
}

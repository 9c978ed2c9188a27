using System.Data.Common;
using System.Diagnostics;
using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tickets;

namespace PlateTickets.Tests.Shared;

/// <summary>
/// A disk of a few megabytes for one room, which can be filled and emptied: a small file system in memory where the test may mount one, else SQLite's own limit of the
/// database's pages. Either way it is SQLite that finds no room, in the middle of a commit.
/// </summary>
internal sealed class SmallDisk : IDisposable
{
    private const int MegaBytes = 32;
    private readonly PageLimit _limit = new();
    private readonly bool _mounted;

    public SmallDisk()
    {
        Folder = Directory.CreateTempSubdirectory("plate-small-disk-").FullName;
        _mounted = Environment.UserName == "root" && Run("mount", "-t", "tmpfs", "-o", $"size={MegaBytes}m", "tmpfs", Folder);
    }

    public string Folder { get; }

    /// <summary>The room's data folder on it.</summary>
    public string Data => Path.Combine(Folder, "data");

    private string Filler => Path.Combine(Folder, "filler");

    /// <summary>What the program that runs on it must be told.</summary>
    public void Customise(WebApplicationBuilder builder)
    {
        if (!_mounted)
        {
            builder.Services.ConfigureDbContext<PlateRoomDb>(options => options.AddInterceptors(_limit));
        }
    }

    /// <summary>Something else takes what is free, but for some bytes.</summary>
    public void Fill(int leave)
    {
        if (!_mounted)
        {
            // A commit takes some ten pages of the log on a disk, and one or none of the database.
            _limit.Leave = leave / 10;
            return;
        }

        using var filler = new FileStream(Filler, FileMode.Append, FileAccess.Write, FileShare.None, 0);
        var piece = new byte[64 * 1024];
        try
        {
            while (true)
            {
                filler.Write(piece);
            }
        }
        catch (IOException)
        {
            filler.SetLength(Math.Max(0, filler.Length - leave));
        }
    }

    /// <summary>Somebody makes room again.</summary>
    public void Empty()
    {
        if (!_mounted)
        {
            _limit.Leave = null;
            return;
        }

        File.Delete(Filler);
    }

    public void Dispose()
    {
        if (_mounted && !Run("umount", Folder))
        {
            throw new InvalidOperationException($"{Folder} could not be unmounted: something is open on it.");
        }

        Directory.Delete(Folder, recursive: true);
    }

    private static bool Run(string program, params string[] arguments)
    {
        using var process = System.Diagnostics.Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
        process.StandardError.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0;
    }

    /// <summary>The limit counts for a connection, so each that is opened gets it.</summary>
    private sealed class PageLimit : DbConnectionInterceptor
    {
        private long? _most;
        private int? _leave;

        /// <summary>Bytes that the database may still grow by; null for no limit.</summary>
        public int? Leave
        {
            set => (_leave, _most) = (value, null);
        }

        public override async Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
        {
            await using var command = connection.CreateCommand();
            if (_leave is { } leave && _most is null)
            {
                command.CommandText = "SELECT (SELECT page_count FROM pragma_page_count) - (SELECT freelist_count FROM pragma_freelist_count) + $leave / (SELECT page_size FROM pragma_page_size)";
                var parameter = command.CreateParameter();
                (parameter.ParameterName, parameter.Value) = ("$leave", leave);
                command.Parameters.Add(parameter);
                _most = Convert.ToInt64(await command.ExecuteScalarAsync(cancellationToken), CultureInfo.InvariantCulture);
                command.Parameters.Clear();
            }

            command.CommandText = string.Create(CultureInfo.InvariantCulture, $"PRAGMA max_page_count = {_most ?? uint.MaxValue - 1}");
            await command.ExecuteScalarAsync(cancellationToken);
        }
    }
}

using System.Diagnostics;

namespace PlateTickets.Tests.Shared;

/// <summary>A PostgreSQL server of a test's own: an ordinary user's, in a folder that is thrown away, reached by a socket only. It can be stopped and started.</summary>
public sealed class PostgresServer : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("plate-postgres-").FullName;

    /// <summary>To one of its databases, which need not be there yet.</summary>
    public string Connection(string database) => $"Host={_folder};Username=plates;Database={database}";

    public async Task InitializeAsync()
    {
        if (Environment.UserName == "root")
        {
            // The server refuses to run as root; the package has made a user for it.
            await RunAsync("chown", "postgres", _folder);
        }

        await AsUserAsync("initdb", "-D", Data, "-U", "plates", "--auth=trust", "--encoding=UTF8", "--locale=C.UTF-8", "--no-sync");
        await StartAsync();
    }

    public Task StartAsync() => AsUserAsync(
        "pg_ctl", "-D", Data, "-w", "-l", Path.Combine(_folder, "log"), "-o", $"-c listen_addresses='' -c unix_socket_directories='{_folder}' -c fsync=off -c timezone=UTC", "start");

    /// <summary>As a power cut would: nobody is asked.</summary>
    public Task StopAsync() => AsUserAsync("pg_ctl", "-D", Data, "-m", "immediate", "stop");

    /// <summary>Dumps a database and restores it into a new one.</summary>
    public async Task DumpAsync(string from, string into)
    {
        var file = Path.Combine(_folder, "room.dump");
        await AsUserAsync("pg_dump", "-h", _folder, "-U", "plates", "--format=custom", $"--file={file}", from);
        await AsUserAsync("createdb", "-h", _folder, "-U", "plates", into);
        await AsUserAsync("pg_restore", "-h", _folder, "-U", "plates", "--exit-on-error", "--single-transaction", $"--dbname={into}", file);
    }

    public async Task DisposeAsync()
    {
        if (File.Exists(Path.Combine(Data, "postmaster.pid")))
        {
            await StopAsync();
        }

        Directory.Delete(_folder, recursive: true);
    }

    private string Data => Path.Combine(_folder, "data");

    private static string Program(string name) => Directory.Exists("/usr/lib/postgresql")
        ? Directory.EnumerateDirectories("/usr/lib/postgresql").OrderByDescending(d => int.TryParse(Path.GetFileName(d), out var v) ? v : 0).Select(d => Path.Combine(d, "bin", name)).First(File.Exists)
        : throw new InvalidOperationException("PostgreSQL is missing: install the Debian package postgresql.");

    private static Task AsUserAsync(string program, params string[] arguments) => Environment.UserName == "root"
        ? RunAsync("runuser", ["-u", "postgres", "--", Program(program), .. arguments])
        : RunAsync(Program(program), arguments);

    private static async Task RunAsync(string program, params string[] arguments)
    {
        // The server that is started goes on with what it inherits: nothing of ours may be among it, or we would wait for its end.
        using var process = System.Diagnostics.Process.Start(new ProcessStartInfo("/bin/sh", ["-c", "exec \"$@\" >/dev/null 2>&1 </dev/null", "sh", program, .. arguments]))!;
        await process.WaitForExitAsync();
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException($"{program} {string.Join(' ', arguments)} ended with status {process.ExitCode}.");
        }
    }
}

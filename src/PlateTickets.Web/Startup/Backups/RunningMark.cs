namespace PlateTickets.Web.Startup.Backups;

/// <summary>
/// A file in the data folder that is locked while the program runs on it: no second one starts there, and no restore exchanges the room
/// under it. The operating system takes the lock away with the process, however it ended.
/// </summary>
public sealed class RunningMark : IDisposable
{
    public const string Name = "running.lock";

    private readonly FileStream _file;

    private RunningMark(FileStream file) => _file = file;

    /// <summary>Takes the lock; null when somebody else has it.</summary>
    public static RunningMark? TryTake(string root)
    {
        try
        {
            return new RunningMark(new FileStream(Path.Combine(root, Name), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None));
        }
        catch (IOException) when (Directory.Exists(root))
        {
            return null;
        }
    }

    public void Dispose() => _file.Dispose();
}

/// <summary>Holds the lock from the program's start to its end.</summary>
internal sealed class RunningMarkHolder(DataFolder data) : IHostedService, IDisposable
{
    private RunningMark? _mark;

    public Task StartAsync(CancellationToken cancellationToken)
    {
        _mark = RunningMark.TryTake(data.Root) ?? throw new InvalidOperationException($"PlateTickets is already running on {data.Root}. Stop it, or name another folder with --data FOLDER.");
        return Task.CompletedTask;
    }

    public Task StopAsync(CancellationToken cancellationToken)
    {
        Dispose();
        return Task.CompletedTask;
    }

    public void Dispose() => _mark?.Dispose();
}

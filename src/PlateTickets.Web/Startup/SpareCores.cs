namespace PlateTickets.Web.Startup;

/// <summary>Where the long computations of the background run: one after the other, on all cores but one. That one stays for the pages.</summary>
internal sealed class SpareCores : IDisposable
{
    private static readonly int Cores = Math.Max(1, Environment.ProcessorCount - 1);

    private readonly SemaphoreSlim _one = new(1, 1);

    /// <param name="work">Is told how many cores it may use.</param>
    public async Task<T> RunAsync<T>(Func<int, Task<T>> work, CancellationToken cancel)
    {
        await _one.WaitAsync(cancel);
        try
        {
            return await Task.Run(() => work(Cores), cancel);
        }
        finally
        {
            _one.Release();
        }
    }

    public void Dispose() => _one.Dispose();
}

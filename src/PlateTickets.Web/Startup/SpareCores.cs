namespace PlateTickets.Web.Startup;

/// <summary>
/// Where the long computations of the background run: one after the other, on all cores but one. That one stays for the pages. The sites that one program
/// serves take turns.
/// </summary>
internal sealed class SpareCores
{
    private static readonly int Cores = Math.Max(1, Environment.ProcessorCount - 1);

    private static readonly SemaphoreSlim One = new(1, 1);

    /// <param name="work">Is told how many cores it may use.</param>
    /// <param name="cancel">Gives up its turn.</param>
    public async Task<T> RunAsync<T>(Func<int, Task<T>> work, CancellationToken cancel)
    {
        await One.WaitAsync(cancel);
        try
        {
            return await Task.Run(() => work(Cores), cancel);
        }
        finally
        {
            One.Release();
        }
    }
}

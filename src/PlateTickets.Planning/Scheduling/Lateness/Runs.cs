namespace PlateTickets.Planning.Scheduling.Lateness;

/// <summary>Numbered runs that do not depend on each other, on some threads.</summary>
internal static class Runs
{
    /// <summary>
    /// Returns when all are done. The threads are started by the caller's, and not the pool's: they have the caller's priority, and nobody waits for them.
    /// </summary>
    /// <param name="threads">With the caller's; -1 for as many as the machine has cores.</param>
    /// <exception cref="OperationCanceledException">Given up between two runs.</exception>
    public static void ForEach(int runs, int threads, Action<int> run, CancellationToken cancel)
    {
        var next = -1;
        var many = Math.Min(threads < 0 ? Environment.ProcessorCount : threads, runs);
        var others = new Task[Math.Max(0, many - 1)];
        for (var t = 0; t < others.Length; t++)
        {
            others[t] = Task.Factory.StartNew(Take, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        }

        var all = Task.WhenAll(others);
        try
        {
            Take();
        }
        finally
        {
            // Nothing of ours is still at work when the caller goes on.
            all.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing).GetAwaiter().GetResult();
        }

        all.GetAwaiter().GetResult();

        void Take()
        {
            while (Interlocked.Increment(ref next) is var mine && mine < runs)
            {
                cancel.ThrowIfCancellationRequested();
                run(mine);
            }
        }
    }
}

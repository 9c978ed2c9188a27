using PlateTickets.Planning.Scheduling.Lateness;

namespace PlateTickets.Planning.Tests.Scheduling;

public sealed class RunsTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(-1)]
    public void Every_run_is_made_once(int threads)
    {
        var made = new int[200];
        Runs.ForEach(made.Length, threads, run => Interlocked.Increment(ref made[run]), CancellationToken.None);
        Assert.All(made, times => Assert.Equal(1, times));
    }

    [Fact]
    public void What_a_run_throws_comes_out_when_nothing_is_at_work_any_more()
    {
        var working = 0;
        Assert.Throws<FormatException>(() => Runs.ForEach(50, 4, run =>
        {
            Interlocked.Increment(ref working);
            try
            {
                Thread.Sleep(1);
                if (run == 7)
                {
                    throw new FormatException();
                }
            }
            finally
            {
                Interlocked.Decrement(ref working);
            }
        }, CancellationToken.None));
        Assert.Equal(0, working);
    }

    [Fact]
    public void It_is_given_up_between_two_runs()
    {
        using var stop = new CancellationTokenSource();
        var made = 0;
        Assert.ThrowsAny<OperationCanceledException>(() => Runs.ForEach(1000, 2, run =>
        {
            if (Interlocked.Increment(ref made) == 10)
            {
                stop.Cancel();
            }
        }, stop.Token));
        Assert.InRange(made, 10, 12);
    }
}

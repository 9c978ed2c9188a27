namespace PlateTickets.Planning.Nesting;

/// <summary>How long to look for a better layout. The same number of plates and the same seed give the same layout.</summary>
/// <param name="Plates">Plates laid down again, at most.</param>
/// <param name="AtMost">Time limit by a clock; what is found then depends on the machine. Without one only the plates count.</param>
public sealed record NestEffort(long Plates, NestTime? AtMost = null, ulong Seed = 1)
{
    /// <summary>Grows with the question: a set takes some milliseconds, the plates of a day some tens of them.</summary>
    public static NestEffort For(int plates) => new(Math.Clamp(20_000L * plates, 100_000, 700_000));

    /// <summary>Searches side by side, when the time is limited.</summary>
    internal int Searches => AtMost is null ? 1 : Environment.ProcessorCount;

    /// <summary>Says whether to go on after so many plates laid.</summary>
    internal Func<long, bool> Clock(Func<bool> enough, int share = 1)
    {
        if (AtMost is not { } limit)
        {
            return laid => laid < Plates / share;
        }

        var (from, checks) = (limit.Clock.GetTimestamp(), 0);
        return laid => laid < Plates / share && ((++checks & 15) != 0 || (limit.Clock.GetElapsedTime(from) < limit.Limit / share && !enough()));
    }
}

/// <summary>So long by this clock.</summary>
public sealed record NestTime(TimeProvider Clock, TimeSpan Limit);

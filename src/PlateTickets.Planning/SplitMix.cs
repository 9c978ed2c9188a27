namespace PlateTickets.Planning;

/// <summary>
/// A small random generator whose seed costs nothing: G. L. Steele, D. Lea, C. H. Flood, Fast splittable pseudorandom number
/// generators, OOPSLA 2014, 453-472 (SplitMix64). Library generators take longer to seed than a stage needs to draw from.
/// </summary>
internal struct SplitMix(ulong seed)
{
    private ulong _state = seed;

    public ulong Next()
    {
        unchecked
        {
            _state += 0x9E3779B97F4A7C15;
            var z = _state;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
            return z ^ (z >> 31);
        }
    }

    /// <summary>A whole number from 0 up to but not including the count.</summary>
    public int Below(int count) => (int)(Next() % (ulong)count);

    /// <summary>Above 0, below 1.</summary>
    public double Uniform() => ((Next() >> 11) + 0.5) * (1.0 / (1UL << 53));

    /// <summary>Standard normal: G. E. P. Box, M. E. Muller, A note on the generation of random normal deviates, Ann. Math. Stat. 29, 1958, 610-611.</summary>
    public double Normal() => Math.Sqrt(-2 * Math.Log(Uniform())) * Math.Cos(2 * Math.PI * Uniform());

    /// <summary>
    /// Standard normal, of those above a bound: C. P. Robert, Simulation of truncated normal variables, Statistics and Computing 5,
    /// 1995, 121-125.
    /// </summary>
    public double NormalAbove(double bound)
    {
        if (bound <= 0)
        {
            var normal = Normal();
            while (normal < bound)
            {
                normal = Normal();
            }

            return normal;
        }

        var rate = (bound + Math.Sqrt((bound * bound) + 4)) / 2;
        while (true)
        {
            var drawn = bound - (Math.Log(Uniform()) / rate);
            if (Uniform() <= Math.Exp(-(drawn - rate) * (drawn - rate) / 2))
            {
                return drawn;
            }
        }
    }
}

namespace PlateTickets.Process.Statistics;

/// <summary>
/// How well a process fits between its limits: tolerance against six standard deviations, and the nearer limit against three
/// (NIST/SEMATECH e-Handbook of Statistical Methods, section 6.1.6). Cp and Cpk take the deviation within samples, as a stable process would have
/// it; Pp and Ppk that of all values as they came. Without dimension. They say something only about values that are normal and in control.
/// </summary>
/// <param name="Cp">Null where one of the two limits is missing.</param>
/// <param name="Cpk">To the nearer limit; below 0 when the mean lies outside.</param>
/// <param name="Pp">As <paramref name="Cp"/>, of all values.</param>
/// <param name="Ppk">As <paramref name="Cpk"/>, of all values.</param>
public sealed record Capability(double? Cp, double Cpk, double? Pp, double Ppk)
{
    /// <summary>The four figures; null where there is no limit at all or nothing scatters.</summary>
    /// <param name="lower">The least that is right; null for no such limit.</param>
    /// <param name="upper">The most that is right, above the least.</param>
    /// <param name="mean">Mean of all values, in the unit of the limits.</param>
    /// <param name="within">Standard deviation within samples; 0 or more.</param>
    /// <param name="overall">Standard deviation of all values; 0 or more.</param>
    /// <exception cref="PlateRoomException">The limits lie the wrong way round.</exception>
    public static Capability? Of(double? lower, double? upper, double mean, double within, double overall)
    {
        if (lower >= upper)
        {
            throw new PlateRoomException($"The lower limit {Numbers.ForPeople(lower.Value, 3)} must lie below the upper one {Numbers.ForPeople(upper.Value, 3)}: check the recipe's limits.");
        }

        var nearest = Math.Min(upper - mean ?? double.PositiveInfinity, mean - lower ?? double.PositiveInfinity);
        return double.IsInfinity(nearest) || !(within > 0 && overall > 0)
            ? null
            : new((upper - lower) / (6 * within), nearest / (3 * within), (upper - lower) / (6 * overall), nearest / (3 * overall));
    }
}

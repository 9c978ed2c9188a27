using System.Globalization;

namespace PlateTickets.Planning.Scheduling.Engine;

internal static class CpParameters
{
    public static string For(TimeSpan within, int workers, int seed) => string.Create(
        CultureInfo.InvariantCulture, $"max_time_in_seconds:{within.TotalSeconds:0.###} num_workers:{workers} random_seed:{seed}");
}

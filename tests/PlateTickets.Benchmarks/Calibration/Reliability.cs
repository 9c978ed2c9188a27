namespace PlateTickets.Benchmarks.Calibration;

/// <summary>A share that was seen, with its standard error; days, not tickets, are taken as independent of each other.</summary>
internal readonly record struct Share(int Count, double Predicted, double Observed, double Error)
{
    public static Share Of(IReadOnlyCollection<(int Day, double Chance, bool Happened)> said)
    {
        if (said.Count == 0)
        {
            return new Share(0, double.NaN, double.NaN, double.NaN);
        }

        var observed = said.Average(s => s.Happened ? 1.0 : 0);
        var squares = said.GroupBy(s => s.Day).Sum(day => Math.Pow(day.Sum(s => (s.Happened ? 1 : 0) - observed), 2));
        return new Share(said.Count, said.Average(s => s.Chance), observed, Math.Sqrt(squares) / said.Count);
    }
}

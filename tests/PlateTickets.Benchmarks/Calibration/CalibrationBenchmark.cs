using System.Globalization;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Lateness;
using PlateTickets.Planning.Scheduling.Replanning;

namespace PlateTickets.Benchmarks.Calibration;

/// <summary>
/// Are the chances true? Rooms whose real times follow spreads that the program does not know: it learns them from 200 past
/// draws of each station, plans and says how likely each ticket is late. Then the day is played once by <see cref="RealDay"/>.
/// </summary>
internal static class CalibrationBenchmark
{
    private const int Past = 200;

    public static int Run(string[] args)
    {
        var options = Options.Of(args, "--rooms", "--seed");
        var (rooms, seed) = ((int)options.Number("--rooms", 100), (int)options.Number("--seed", 1));
        var late = new List<(int Day, double Chance, bool Happened)>();
        var (half, eighty, ninetyFive) = (late[..0], late[..0], late[..0]);
        var (exact, tickets) = (new List<double>(), 0);
        for (var day = 0; day < rooms; day++)
        {
            var random = new Random((1000 * seed) + day);
            var truth = Enumerable.Range(0, InventedRoom.Stations).Select(_ => new TimeSpread(-0.05 + (0.15 * random.NextDouble()), 0.05 + (0.3 * random.NextDouble()))).ToList();
            var request = Uncertain(InventedRoom.WithSpreads(InventedRoom.Of(20 + random.Next(41), random.Next()), [.. truth.Select(t => Learnt(t, random))]), random);
            var live = LivePlan.Start(request);
            var ratios = request.Sheets.SelectMany(s => s.Stages).ToDictionary(t => t.Id, t => Draw(truth[InventedRoom.StationOf(t)], random));
            var ends = RealDay.Play(request, live.Plan, t => ratios[t.Id]);
            var computed = RealDay.Play(request, live.Plan, _ => 1);
            foreach (var outlook in LatenessSimulation.Of(live, seed: seed))
            {
                var ticket = request.Tickets[outlook.TicketId];
                var end = ticket.SheetIds.Max(s => ends[s]);
                late.Add((day, outlook.LateChance, end > ticket.DueUtc));
                half.Add((day, 0.5, end <= outlook.Finish.Half));
                eighty.Add((day, 0.8, end <= outlook.Finish.Eighty));
                ninetyFive.Add((day, 0.95, end <= outlook.Finish.NinetyFive));
                exact.Add((ticket.SheetIds.Max(s => computed[s]) - outlook.PlannedUtc).TotalMinutes);
                tickets++;
            }
        }

        exact.Sort();
        Say($"{rooms} rooms, {tickets} tickets, seed {seed}; {late.Count(l => l.Chance is > 0.05 and < 0.95)} tickets with a chance between 5 and 95 %");
        Say($"played with the times as computed, tickets end {exact[exact.Count / 2]:0.0} min after the plan in the middle, {exact[exact.Count / 10]:0.0} to {exact[exact.Count * 9 / 10]:0.0} for eight of ten");
        Say($"chance       tickets  predicted  observed  standard error");
        for (var bin = 0; bin < 10; bin++)
        {
            var share = Share.Of([.. late.Where(l => Math.Min(9, (int)(l.Chance * 10)) == bin)]);
            Say($"{10 * bin,3}-{10 * (bin + 1),3} %    {share.Count,7}  {100 * share.Predicted,7:0.0} %  {100 * share.Observed,6:0.0} %  {100 * share.Error,6:0.0}");
        }

        var all = Share.Of(late);
        var brier = late.Average(l => Math.Pow(l.Chance - (l.Happened ? 1 : 0), 2));
        var always = all.Observed * (1 - all.Observed);
        Say($"Brier score {brier:0.0000}, of always saying {100 * all.Observed:0.0} %: {always:0.0000}, skill {1 - (brier / always):0.000}");
        Say($"mean bias (predicted less observed) {100 * (all.Predicted - all.Observed):0.0} points, standard error {100 * all.Error:0.0}");
        foreach (var (name, said) in new[] { ("50 %", half), ("80 %", eighty), ("95 %", ninetyFive) })
        {
            var share = Share.Of(said);
            Say($"finished by the promise of {name}: {100 * share.Observed:0.0} %, standard error {100 * share.Error:0.0}");
        }

        return 0;
    }

    // Due about when the plan has them finished, so that luck decides for many of them.
    private static PlanRequest Uncertain(PlanRequest request, Random random)
    {
        var finish = LivePlan.Start(request).Plan.Stages.GroupBy(s => s.SheetId).ToDictionary(g => g.Key, g => g.Max(s => s.FinishUtc));
        var due = request.Tickets.ToDictionary(t => t.Id, t => t.SheetIds.Max(s => finish[s]) + ((0.5 * random.NextDouble()) - 0.15) * (t.SheetIds.Max(s => finish[s]) - request.NowUtc));
        var dueOfSheet = request.Tickets.SelectMany(t => t.SheetIds.Select(s => (s, Due: due[t.Id]))).ToDictionary(s => s.s, s => s.Due);
        return request with
        {
            Tickets = [.. request.Tickets.Select(t => t with { DueUtc = due[t.Id] })],
            Sheets = [.. request.Sheets.Select(s => s with { DueUtc = dueOfSheet[s.Id] })],
        };
    }

    private static TimeSpread Learnt(TimeSpread truth, Random random)
    {
        var logs = Enumerable.Range(0, Past).Select(_ => Math.Log(Draw(truth, random))).ToList();
        var mean = logs.Average();
        return new TimeSpread(mean, Math.Sqrt(logs.Sum(l => (l - mean) * (l - mean)) / (Past - 1)));
    }

    private static double Draw(TimeSpread spread, Random random) =>
        Math.Exp(spread.LogMean + (spread.LogDeviation * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble())));

    private static void Say(FormattableString sentence) => Console.WriteLine(sentence.ToString(CultureInfo.InvariantCulture));
}

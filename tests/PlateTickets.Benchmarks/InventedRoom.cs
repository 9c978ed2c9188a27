using PlateTickets.Planning.Scheduling;

namespace PlateTickets.Benchmarks;

/// <summary>
/// An invented plate room over several days: two frames for back and face exposure, two imagers, a line washer, eight drawers,
/// a finisher, a cutting table; three operators in two shifts with breaks; sets of one to three sheets.
/// </summary>
internal static class InventedRoom
{
    public static readonly DateTime Now = new(2026, 11, 25, 8, 0, 0, DateTimeKind.Utc);

    private const int Frames = 1, Imagers = 3, Line = 5, Dryer = 6, Finisher = 7, Table = 8;
    private static readonly int[][] Machines = [[Frames, Frames + 1], [Imagers, Imagers + 1], [Frames, Frames + 1], [Line], [Dryer], [Finisher], [Table]];
    private static readonly double[] Minutes = [2, 10, 12, 20, 90, 17, 8];

    public static PlanRequest Of(int sheets, int seed)
    {
        var random = new Random(seed);
        PlanEquipment[] equipment =
        [
            Single(Frames), Single(Frames + 1), Single(Imagers), Single(Imagers + 1),
            new(Line, EquipmentKind.Line, 1, TimeSpan.FromMinutes(20)), new(Dryer, EquipmentKind.Slots, 8, TimeSpan.Zero), Single(Finisher), Single(Table),
        ];
        var made = new List<PlanSheet>();
        var tickets = new List<PlanTicket>();
        while (made.Count < sheets)
        {
            // Work comes in for about as long as the frames need for it, so that some of it must be late.
            var due = Now.AddMinutes(240 + (random.NextDouble() * sheets * 30));
            var (ticket, its) = Order(tickets.Count, made.Count, due, sheets - made.Count, random);
            tickets.Add(ticket);
            made.AddRange(its);
        }

        return new PlanRequest(Now, equipment, made, Working(Shifts)) { Tickets = tickets, Operators = [.. Enumerable.Repeat(Working(Shifts), 3)] };
    }

    /// <summary>A ticket and its one to three sheets, with ids from the given ones on.</summary>
    public static (PlanTicket Ticket, IReadOnlyList<PlanSheet> Sheets) Order(int ticketId, int firstSheet, DateTime due, int most, Random random)
    {
        var (recipe, weight, size) = (random.Next(3), random.Next(10) == 0 ? 4 : 1 + random.Next(2), Math.Min(most, 1 + random.Next(3)));
        return (new PlanTicket(ticketId, due, weight, [.. Enumerable.Range(firstSheet, size)]),
            [.. Enumerable.Range(firstSheet, size).Select(s => Sheet(s, due, weight, recipe, random))]);
    }

    /// <summary>The stations in the order of the route; a stage's id is ten times its sheet's, plus this.</summary>
    public static int StationOf(PlanStage stage) => stage.Id % 10;

    /// <summary>The same request with a spread for each station.</summary>
    public static PlanRequest WithSpreads(PlanRequest request, IReadOnlyList<TimeSpread> spreads) => request with
    {
        Sheets = [.. request.Sheets.Select(s => s with { Stages = [.. s.Stages.Select(t => t with { Spread = spreads[StationOf(t)] })] })],
    };

    public static int Stations => Machines.Length;

    private static readonly Shift[] Shifts =
    [
        new("Early", Enum.GetValues<DayOfWeek>(), new(new(6, 0), new(14, 0)), [new(new(9, 0), new(9, 30))]),
        new("Late", Enum.GetValues<DayOfWeek>(), new(new(14, 0), new(22, 0)), [new(new(18, 0), new(18, 30))]),
    ];

    private static PlanSheet Sheet(int id, DateTime due, double weight, int recipe, Random random) => new(
        id, Now, due, weight, recipe,
        [.. Machines.Select((m, i) => new PlanStage(
            (id * 10) + i, [.. m.Select(e => Way(e, i, random))], i == 4 ? TimeSpan.FromMinutes(30) : TimeSpan.Zero)
        {
            LongestWaitAfter = i == 3 ? TimeSpan.FromHours(1) : null,
        })]);

    private static StageOption Way(int machine, int station, Random random)
    {
        var run = TimeSpan.FromSeconds(Math.Round(60 * Minutes[station] * (0.8 + (0.4 * random.NextDouble()))));
        return machine == Table
            ? new StageOption(machine, run, TimeSpan.Zero, TimeSpan.FromSeconds(60), TimeSpan.Zero)
            : new StageOption(machine, TimeSpan.FromSeconds(90), run, TimeSpan.FromSeconds(60), TimeSpan.FromMinutes(8));
    }

    private static PlanEquipment Single(int id) => new(id, EquipmentKind.Single, 1, TimeSpan.Zero);

    private static WorkingTime Working(Shift[] shifts) => WorkingTime.FromShifts(shifts, new HashSet<DateOnly>(), TimeZoneInfo.Utc, Now.AddDays(-14), Now.AddDays(60));
}

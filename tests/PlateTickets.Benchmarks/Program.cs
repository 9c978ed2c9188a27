using PlateTickets.Benchmarks;

return args.FirstOrDefault() switch
{
    "stages" => StageTimesBenchmark.Run(),
    "plan" => PlanBenchmark.Run(args[1..]),
    _ => Usage(),
};

static int Usage()
{
    Console.WriteLine("""
        dotnet run -c Release --project tests/PlateTickets.Benchmarks -- COMMAND
          stages               time of all six stages of one sheet, in memory
          plan [--sheets N]    time of the first plan of N open sheets (400 unless given)
        """);
    return 1;
}

using PlateTickets.Benchmarks;
using PlateTickets.Benchmarks.Boards;
using PlateTickets.Benchmarks.Calibration;
using PlateTickets.Benchmarks.Exchange;
using PlateTickets.Benchmarks.Groups;
using PlateTickets.Benchmarks.Nesting;
using PlateTickets.Benchmarks.Ovens;
using PlateTickets.Benchmarks.Rooms;
using PlateTickets.Benchmarks.Shops;
using PlateTickets.Benchmarks.StationPages;

try
{
    return args.FirstOrDefault() switch
    {
        "stages" => StageTimesBenchmark.Run(),
        "plan" => PlanBenchmark.Run(args[1..]),
        "calibration" => CalibrationBenchmark.Run(args[1..]),
        "replan" => ReplanBenchmark.Run(args[1..]),
        "room" => RoomBenchmark.Run(args[1..]),
        "jobshop" => ShopCommand.Run(ShopFile.JobShop, args[1..]),
        "flexible" => ShopCommand.Run(ShopFile.Flexible, args[1..]),
        "hybrid" => ShopCommand.Run(ShopFile.Hybrid, args[1..]),
        "nest" => NestCommand.Run(args[1..]),
        "scans" => await (args.Contains("--rate") ? ScanLoad.RunAsync(args[1..]) : ScanBenchmark.RunAsync(args[1..])),
        "audit" => await AuditBenchmark.RunAsync(args[1..]),
        "search" => await SearchBenchmark.RunAsync(args[1..]),
        "tiff" => TiffBenchmark.Run(args[1..]),
        "stations" => StationsCommand.Run(args[1..]),
        "board" => await BoardCommand.RunAsync(args[1..]),
        BoardViewers.Command => await BoardViewers.RunAsync(args[1..]),
        "documents" => await DocumentsBenchmark.RunAsync(args[1..]),
        "sites" => await SitesBenchmark.RunAsync(args[1..]),
        "oven" => OvenCommand.Run(args[1..]),
        _ => Usage(),
    };
}
catch (FormatException e)
{
    Console.Error.WriteLine(e.Message);
    return 1;
}

static int Usage()
{
    Console.WriteLine("""
        dotnet run -c Release --project tests/PlateTickets.Benchmarks -- COMMAND
          stages               time of all stages of one sheet, in memory
          plan [--sheets N]    time of the first plan of N open sheets (400 unless given)
          room [--sheets N] [--seconds S] [--seed K]
                               our first and improved plan of an invented room, and CP-SAT alone in the same time
          calibration [--rooms N] [--seed K]
                               chances and promises against days that were played with other draws, by another simulator
          replan [--sheets N] [--events E] [--seed K]
                               time of a new plan after each of E events, what it moves, and the time of a promise
          jobshop FILE [--seconds N] [--seed K] [--due DUE.csv] [--out schedule.csv]
          flexible FILE ...    the same for shops with a choice of machines
          hybrid FILE ...      the same for hybrid flow shops
          tiff FILE ... [--rounds N]
                               one pass over each separation beside libtiff's decoding of it (tiffcp)
          stations [--pages N] [--scans N] [--pause MS]
                               scan to confirmation on the page with N station pages open in Chromium (20 unless given)
          board [--viewers N] [--sheets N] [--scans N] [--page /board]
                               committed scan to changed board in every viewer, with N real circuits over WebSocket, and server memory per viewer
          oven FILE [--seconds N] [--seed K] [--workers W] [--out batches.csv]
                               batches, shifts and set-ups of the oven scheduling set
          scans [--rooms N]    time of a scan until it is on disk, for every open sheet of the demo room
          scans --rate R [--seconds S] [--nodes N] [--provider sqlite|postgresql] [--sheets N] [--history N] [--backup 1]
                               the whole program under R scans a second (0: as fast as it goes), beside the database's own rate of commits;
                               --history: with so many done sheets, their stages and scans in the database; --backup 1: backups are made meanwhile;
                               PostgreSQL: PLATETICKETS_FSYNC=on bash tests/postgres dotnet run …
          sites [--sites N]    1, 2, 4 … sites of a group in one program: start, memory, and the cost of a scan with its plan at each
          audit [--entries N]  writing, verifying, searching and exporting an audit trail of N entries
          documents [--documents N]
                               order documents read in memory, and taken in until their order is on disk
          search [--tickets N] finding tickets among N (500 000 unless given)
          nest BINS.csv ITEMS.csv [--seconds N] [--plates N] [--seed K] [--no-rotation] [--out placements.csv]
          nest FILE.2bp:N_R - ...
                               rectangles onto bins with edge-to-edge cuts
          nest FOLDER ...      every instance of a folder, with the total of its best known values
        """);
    return 1;
}

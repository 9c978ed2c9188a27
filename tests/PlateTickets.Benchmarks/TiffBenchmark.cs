using System.Diagnostics;
using System.Globalization;
using System.Security.Cryptography;
using PlateTickets.Tickets.Orders.Separations;

namespace PlateTickets.Benchmarks;

/// <summary>
/// The one pass over separations (size, resolution, colour, coverage, box, preview as PNG) beside libtiff's own decoding of the same file.
/// libtiff decodes with "tiffcp -m 0 -c none" (no limit of memory) into memory (/dev/shm): its start is in the figure, its writing too, but no disk.
/// </summary>
internal static class TiffBenchmark
{
    public static int Run(string[] args)
    {
        var options = Options.Of(args, "--rounds");
        var rounds = (int)options.Number("--rounds", 5);
        var written = Path.Combine(Directory.Exists("/dev/shm") ? "/dev/shm" : Path.GetTempPath(), $"decoded-{Environment.ProcessId}.tif");
        Console.WriteLine("Seconds are the best of the rounds, in turn with the native decoder; “first” is the first round, before the code is warm. MB are of raw bits.");
        Console.WriteLine($"{"file",-24} {"raw MB",8} {"first s",8} {"ours s",8} {"+SHA s",8} {"MB/s",7} {"peak MB",8} {"more MB",8} {"native s",9} {"ratio",6} {"+SHA",6}");
        foreach (var file in options.Files)
        {
            var idle = Memory("VmRSS");
            PeakFromNow();
            var (first, best, hashed, native) = (Seconds(() => Read(file)), double.MaxValue, double.MaxValue, double.MaxValue);
            var facts = Read(file);
            for (var i = 0; i < rounds; i++)
            {
                best = Math.Min(best, Seconds(() => Read(file)));
                hashed = Math.Min(hashed, Seconds(() => ReadAndHash(file)));
                native = Math.Min(native, Seconds(() => Decode(file, written)));
            }

            var raw = (facts.WidthPixels + 7) / 8 * (double)facts.HeightPixels / 1e6;
            var peak = Memory("VmHWM");
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{Path.GetFileName(file),-24} {raw,8:0.0} {first,8:0.000} {best,8:0.000} {hashed,8:0.000} {raw / best,7:0} {peak,8:0} {peak - idle,8:0} {native,9:0.000} {best / native,6:0.00} {hashed / native,6:0.00}"));
        }

        File.Delete(written);
        return 0;
    }

    private static SeparationFacts Read(string file)
    {
        using var stream = File.OpenRead(file);
        return SeparationReader.Read(stream, Path.GetFileName(file));
    }

    /// <summary>As for a file that is on the disk already: its SHA-256 on one thread while the image is read.</summary>
    private static void ReadAndHash(string file)
    {
        var hash = Task.Run(() =>
        {
            using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.Read, 256 * 1024);
            return SHA256.HashData(stream);
        });
        Read(file);
        hash.GetAwaiter().GetResult();
    }

    private static void Decode(string file, string written)
    {
        using var process = System.Diagnostics.Process.Start(new ProcessStartInfo("tiffcp", ["-m", "0", "-c", "none", file, written]) { RedirectStandardError = true })!;
        process.StandardError.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0)
        {
            throw new FormatException($"tiffcp does not read {file}.");
        }
    }

    private static double Seconds(Action action)
    {
        var from = Stopwatch.GetTimestamp();
        action();
        return Stopwatch.GetElapsedTime(from).TotalSeconds;
    }

    /// <summary>Linux: the highest resident size is measured from here on.</summary>
    private static void PeakFromNow()
    {
        GC.Collect();
        File.WriteAllText("/proc/self/clear_refs", "5");
    }

    /// <summary>MB of a line of /proc/self/status.</summary>
    private static double Memory(string name)
    {
        var line = File.ReadLines("/proc/self/status").First(l => l.StartsWith(name, StringComparison.Ordinal));
        return double.Parse(new string([.. line.Where(char.IsDigit)]), CultureInfo.InvariantCulture) / 1000;
    }
}

using Microsoft.Extensions.Options;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Web.Startup;

namespace PlateTickets.Web.Orders;

/// <summary>Takes a separation file in as a stream: onto disk, read, and off the disk again. Only its facts are kept.</summary>
public sealed class SeparationIntake
{
    // Each reading takes up to 60 MB and two processors: more at once would only be slower.
    private readonly SemaphoreSlim _reading = new(2, 2);
    private readonly DataFolder _folder;
    private readonly long _longest;

    public SeparationIntake(DataFolder folder, IOptions<PlateRoomOptions> options)
    {
        _folder = folder;
        _longest = options.Value.LongestFile;
        // What a killed server left half read: its sender was never told that it arrived.
        foreach (var left in Directory.EnumerateFiles(folder.Spool))
        {
            File.Delete(left);
        }
    }

    public long LongestFile => _longest;

    /// <param name="source">Read once, to its end.</param>
    /// <param name="fileName">As it came.</param>
    /// <param name="arriving">Told the bytes that have arrived.</param>
    /// <param name="looking">Told the share of the image that is read, 0 to 1, after all bytes arrived.</param>
    /// <param name="cancel">Cancels.</param>
    /// <exception cref="SeparationException">The file is no separation; the message says what to do.</exception>
    public async Task<ReadSeparation> ReadAsync(Stream source, string fileName, IProgress<long>? arriving, IProgress<double>? looking, CancellationToken cancel)
    {
        await using var spooled = await SpoolFile.SpoolAsync(source, _folder.Spool, _longest, arriving, cancel);
        await _reading.WaitAsync(cancel);
        try
        {
            var facts = await Task.Run(() => SeparationReader.Read(spooled.Stream, fileName, looking, cancel), cancel);
            return new ReadSeparation(facts, spooled.Sha256Hex, spooled.Length);
        }
        finally
        {
            _reading.Release();
        }
    }
}

using Microsoft.Extensions.Options;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Web.Startup;

namespace PlateTickets.Web.Orders;

/// <summary>Takes a separation file in as a stream: onto disk, read, and off the disk again. Only its facts are kept.</summary>
public sealed class SeparationIntake
{
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

    /// <exception cref="SeparationException">The file is no separation; the message says what to do.</exception>
    public async Task<ReadSeparation> ReadAsync(Stream source, string fileName, IProgress<long>? progress, CancellationToken cancel)
    {
        await using var spooled = await SpoolFile.SpoolAsync(source, _folder.Spool, _longest, progress, cancel);
        return new ReadSeparation(SeparationReader.Read(spooled.Stream, fileName), spooled.Sha256Hex, spooled.Length);
    }
}

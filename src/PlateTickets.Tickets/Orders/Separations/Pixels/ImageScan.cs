using System.Runtime.ExceptionServices;

namespace PlateTickets.Tickets.Orders.Separations.Pixels;

/// <summary>One pass over the pixels of a separation, on at most two threads.</summary>
internal sealed class ImageScan(TiffFile tiff, TiffDirectory image, ImageShape shape, string fileName, IProgress<double>? progress, CancellationToken cancel)
{
    private const int MostThreads = 2;
    private const int BatchSections = 64;
    private const long BatchBytes = 128 * 1024;

    private readonly Lock _gate = new();
    private readonly long _pixels = (long)shape.Width * shape.Height;
    private long _done;
    private int _percent;
    private volatile bool _stopped;

    /// <exception cref="SeparationException">The image data are damaged, cut off or of a kind that is not read here.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public InkCounter Run(long compression)
    {
        var options = compression == 3 ? image.Number(292, 0) : 0;
        var reversed = image.Number(266, 1) == 2;
        var plain = compression == 1;
        using var sections = ImageSection.Of(tiff, image, shape, plain).GetEnumerator();
        var parts = plain ? Math.Max(image.Count(273), _pixels >> 24) : Math.Max(image.Count(273), image.Count(324));
        var threads = (int)Math.Clamp(Math.Min(parts, _pixels >> 18), 1, Math.Min(MostThreads, Environment.ProcessorCount));
        var work = new Task<InkCounter>[threads - 1];
        for (var i = 0; i < work.Length; i++)
        {
            work[i] = Task.Run(() => Work(sections, compression, options, reversed), CancellationToken.None);
        }

        InkCounter? counter = null;
        ExceptionDispatchInfo? failure = null;
        try
        {
            counter = Work(sections, compression, options, reversed);
        }
        catch (Exception e)
        {
            failure = ExceptionDispatchInfo.Capture(e);
        }

        // Nobody may go on reading when the caller closes the file.
        foreach (var other in work)
        {
            try
            {
                counter?.Add(other.GetAwaiter().GetResult());
                other.GetAwaiter().GetResult();
            }
            catch (Exception e)
            {
                failure ??= ExceptionDispatchInfo.Capture(e);
            }
        }

        failure?.Throw();
        return counter!;
    }

    private InkCounter Work(IEnumerator<ImageSection> sections, long compression, long options, bool reversed)
    {
        using var reader = new SectionReader(tiff.Raw, shape, compression, options, reversed);
        var batch = new List<ImageSection>(BatchSections);
        try
        {
            while (Take(sections, batch))
            {
                foreach (var section in batch)
                {
                    Read(reader, section);
                }
            }
        }
        catch
        {
            _stopped = true;
            throw;
        }

        reader.Counter.Finish();
        return reader.Counter;
    }

    /// <summary>Neighbours go to one thread: they share lines of the preview.</summary>
    private bool Take(IEnumerator<ImageSection> sections, List<ImageSection> batch)
    {
        batch.Clear();
        lock (_gate)
        {
            for (long bytes = 0; !_stopped && batch.Count < BatchSections && bytes < BatchBytes && sections.MoveNext(); bytes += sections.Current.Bytes)
            {
                batch.Add(sections.Current);
            }
        }

        return batch.Count > 0;
    }

    private void Read(SectionReader reader, ImageSection section)
    {
        try
        {
            reader.Read(section, Tell);
        }
        catch (EndOfStreamException e)
        {
            throw new SeparationException(
                SeparationFault.CutOff, $"{fileName} is cut off: the image data of {Place(section)} end too early. Send it again, whole.", e);
        }
        catch (InvalidDataException e)
        {
            throw new SeparationException(
                SeparationFault.Damaged, $"{fileName} is damaged: the image data of {Place(section)} cannot be decoded. Write the file again.", e);
        }
        catch (NotSupportedException e)
        {
            throw new SeparationException(
                SeparationFault.Unsupported, $"{fileName} uses the uncompressed mode of CCITT coding, which is not read here. Save it as TIFF with plain CCITT G4.", e);
        }
    }

    private string Place(ImageSection section) =>
        section.Lines == shape.Height ? "the image" : $"lines {section.Y + 1} to {section.Y + section.Lines}";

    private void Tell(long pixels)
    {
        cancel.ThrowIfCancellationRequested();
        var percent = (int)(Interlocked.Add(ref _done, pixels) * 100 / _pixels);
        if (progress is not null && percent > Volatile.Read(ref _percent))
        {
            Volatile.Write(ref _percent, percent);
            progress.Report(percent / 100.0);
        }
    }
}

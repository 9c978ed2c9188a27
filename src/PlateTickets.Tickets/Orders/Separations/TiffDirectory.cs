namespace PlateTickets.Tickets.Orders.Separations;

/// <summary>One image file directory: its entries by tag.</summary>
internal sealed class TiffDirectory(TiffFile file, IReadOnlyDictionary<int, TiffEntry> entries)
{
    public bool Has(int tag) => entries.ContainsKey(tag);

    /// <summary>How many values a tag has; 0 when it is missing.</summary>
    public long Count(int tag) => entries.TryGetValue(tag, out var entry) ? entry.Count : 0;

    /// <summary>The first value of a whole-number tag, or the default.</summary>
    public long Number(int tag, long missing) => entries.TryGetValue(tag, out var entry) && entry.Count > 0 ? file.Number(entry, 0) : missing;

    /// <summary>All values of a whole-number tag, read in chunks.</summary>
    public IEnumerable<long> Numbers(int tag) => entries.TryGetValue(tag, out var entry) ? file.Numbers(entry) : [];

    /// <summary>A rational or real tag; null when it is missing or no finite number.</summary>
    public double? Real(int tag) => entries.TryGetValue(tag, out var entry) && entry.Count > 0 ? file.Real(entry) : null;

    /// <summary>A text tag up to its first zero byte, at most 2,000 bytes; null when missing.</summary>
    public string? Text(int tag) => entries.TryGetValue(tag, out var entry) ? file.Text(entry) : null;
}

/// <summary>An entry of a directory: the place of its values in the file (for short values that place lies inside the entry itself).</summary>
internal readonly record struct TiffEntry(int Type, long Count, long ValueOffset);

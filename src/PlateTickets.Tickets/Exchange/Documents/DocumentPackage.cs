using System.IO.Compression;
using System.Text;
using PlateTickets.Tickets.Exchange.Xjdf;

namespace PlateTickets.Tickets.Exchange.Documents;

/// <summary>A zip package (XJDF 2.2, 9.7): a message at its root, the document it points to, and files. Nothing of it is written under a name that it brings.</summary>
public sealed class DocumentPackage : IDisposable
{
    /// <summary>Most entries of a package.</summary>
    public const int MostEntries = 500;

    private readonly ZipArchive _zip;
    private readonly Dictionary<string, ZipArchiveEntry> _entries = new(StringComparer.Ordinal);

    private DocumentPackage(ZipArchive zip) => _zip = zip;

    /// <summary>Does this begin as a zip file does?</summary>
    public static bool IsZip(ReadOnlySpan<byte> start) => start.StartsWith("PK\x03\x04"u8) || start.StartsWith("PK\x05\x06"u8);

    /// <param name="file">At its beginning, seekable; closed with the package.</param>
    /// <exception cref="DocumentRefusedException">It is no zip file, or one that is not safe to read.</exception>
    public static DocumentPackage Open(Stream file)
    {
        DocumentPackage? package = null;
        try
        {
            package = new DocumentPackage(new ZipArchive(file, ZipArchiveMode.Read, leaveOpen: false, Encoding.UTF8));
            package.List();
            return package;
        }
        catch (InvalidDataException)
        {
            package?.Dispose();
            throw new DocumentRefusedException(ReturnCodes.Parser, "The package is no zip file that can be read: it is damaged, or ends too early.");
        }
        catch
        {
            package?.Dispose();
            throw;
        }
    }

    /// <summary>The message at the root; null in a package without one.</summary>
    public string? Message => _entries.Keys.FirstOrDefault(k => k.Equals(XjdfNames.RootMessage, StringComparison.OrdinalIgnoreCase));

    /// <summary>The only document of a package without a message; null when there is none or more than one.</summary>
    public string? OnlyDocument => _entries.Keys.Where(k => k.EndsWith(".xjdf", StringComparison.OrdinalIgnoreCase)).Take(2).ToList() is [{ } one] ? one : null;

    /// <summary>The entry that an address within the package means; null when there is none. Addresses are relative to the package's root (9.7.1.2).</summary>
    public string? Find(string url)
    {
        var path = url.StartsWith("cid:", StringComparison.OrdinalIgnoreCase) ? url[4..] : url;
        path = Uri.UnescapeDataString(path.Split('#', '?')[0]);
        path = path.StartsWith("./", StringComparison.Ordinal) ? path[2..] : path.TrimStart('/');
        return _entries.ContainsKey(path) ? path : null;
    }

    /// <summary>A document or message of the package, whole.</summary>
    /// <exception cref="DocumentRefusedException">It is longer than <see cref="SafeXml.MostBytes"/>, or damaged.</exception>
    public async Task<byte[]> ReadAsync(string entry, CancellationToken cancel)
    {
        // What an entry says of its length is not believed: it is counted.
        var kept = new MemoryStream();
        var buffer = new byte[64 * 1024];
        await using var from = Open(entry);
        for (int got; (got = await GetAsync(from, buffer, cancel)) > 0;)
        {
            if (kept.Length + got > SafeXml.MostBytes)
            {
                throw new DocumentRefusedException(ReturnCodes.Parser, $"{entry} is longer than {SafeXml.MostBytes >> 20} MiB.");
            }

            kept.Write(buffer, 0, got);
        }

        return kept.ToArray();
    }

    /// <summary>A file of the package, read once from its beginning.</summary>
    public Stream Open(string entry) => _entries[entry].Open();

    public void Dispose() => _zip.Dispose();

    private static async Task<int> GetAsync(Stream from, byte[] buffer, CancellationToken cancel)
    {
        try
        {
            return await from.ReadAsync(buffer, cancel);
        }
        catch (InvalidDataException)
        {
            throw new DocumentRefusedException(ReturnCodes.Parser, "The package is damaged: one of its entries cannot be unpacked.");
        }
    }

    private void List()
    {
        foreach (var entry in _zip.Entries)
        {
            if (_entries.Count == MostEntries)
            {
                throw new DocumentRefusedException(ReturnCodes.General, $"The package has more than {MostEntries} entries: send the job by itself.");
            }

            var name = entry.FullName.Replace('\\', '/');
            if (name.EndsWith('/'))
            {
                continue;
            }

            // No entry is ever written under its name; one that tries to leave its folder says what its sender is after.
            if (name.StartsWith('/') || name.Contains(':', StringComparison.Ordinal) || name.Split('/').Contains("..") || name.Any(char.IsControl) || name.Length > 500)
            {
                throw new DocumentRefusedException(ReturnCodes.General, "The package has an entry whose name leads out of it. It was not read.");
            }

            if (entry.IsEncrypted)
            {
                throw new DocumentRefusedException(ReturnCodes.General, "The package is locked by a password. Packages come unlocked (XJDF 2.2, 9.7.1.4); the connection keeps them secret.");
            }

            if (!_entries.TryAdd(name, entry))
            {
                throw new DocumentRefusedException(ReturnCodes.General, $"The package has two entries named {name}: nobody can tell which is meant.");
            }
        }
    }
}

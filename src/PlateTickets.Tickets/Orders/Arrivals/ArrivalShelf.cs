using System.Buffers;
using System.Security.Cryptography;

namespace PlateTickets.Tickets.Orders.Arrivals;

/// <summary>
/// Where arrived files are kept: one folder for each content, named by its SHA-256, with the file under its own name in it. A file is whole
/// and on disk there before it is deleted where it came from: whenever the server stops, it lies in one of the two places.
/// </summary>
public sealed class ArrivalShelf
{
    private const string Unfinished = ".taking";
    private const int PieceBytes = 256 * 1024;

    private readonly string _root;

    public ArrivalShelf(string root)
    {
        _root = root;
        Directory.CreateDirectory(root);
        // What a stopped server was copying: the file itself still lies where it came from.
        foreach (var left in Directory.EnumerateFiles(root, "*" + Unfinished))
        {
            File.Delete(left);
        }
    }

    public string PathOf(string sha256, string fileName) => Path.Combine(_root, sha256, fileName);

    /// <summary>Every file on the shelf.</summary>
    public IEnumerable<(string Sha256, string FileName, long Bytes)> All() =>
        from folder in Directory.EnumerateDirectories(_root)
        from file in Directory.EnumerateFiles(folder)
        select (Path.GetFileName(folder), Path.GetFileName(file), new FileInfo(file).Length);

    /// <summary>Copies a file onto the shelf. The original stays: <see cref="Forget"/> deletes it.</summary>
    /// <returns>Its SHA-256, or null when it changed meanwhile.</returns>
    public async Task<string?> CopyAsync(string path, CancellationToken cancel)
    {
        var before = new FileInfo(path);
        var (length, written) = (before.Length, before.LastWriteTimeUtc);
        var copy = Path.Combine(_root, $"{Guid.NewGuid():N}{Unfinished}");
        var buffer = ArrayPool<byte>.Shared.Rent(PieceBytes);
        try
        {
            using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            await using (var from = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, 0, FileOptions.Asynchronous | FileOptions.SequentialScan))
            await using (var to = new FileStream(copy, FileMode.CreateNew, FileAccess.Write, FileShare.None, 0, FileOptions.Asynchronous))
            {
                for (int got; (got = await from.ReadAsync(buffer.AsMemory(0, PieceBytes), cancel)) > 0;)
                {
                    hash.AppendData(buffer, 0, got);
                    await to.WriteAsync(buffer.AsMemory(0, got), cancel);
                }

                to.Flush(flushToDisk: true);
            }

            before.Refresh();
            if (!before.Exists || before.Length != length || before.LastWriteTimeUtc != written)
            {
                return null;
            }

            var sha256 = Convert.ToHexStringLower(hash.GetHashAndReset());
            var kept = PathOf(sha256, Path.GetFileName(path));
            Directory.CreateDirectory(Path.GetDirectoryName(kept)!);
            File.Move(copy, kept, overwrite: true);
            return sha256;
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(buffer);
            File.Delete(copy);
        }
    }

    /// <summary>Deletes a file from the shelf, and its folder with the last one in it.</summary>
    public void Delete(string sha256, string fileName)
    {
        var path = PathOf(sha256, fileName);
        File.Delete(path);
        var folder = Path.GetDirectoryName(path)!;
        if (!Directory.EnumerateFileSystemEntries(folder).Any())
        {
            Directory.Delete(folder);
        }
    }

    /// <summary>Deletes the original of a file that is on the shelf.</summary>
    public static void Forget(string path) => File.Delete(path);
}

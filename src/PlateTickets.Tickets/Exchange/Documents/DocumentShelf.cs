using System.Buffers;
using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Exchange.Xjdf;

namespace PlateTickets.Tickets.Exchange.Documents;

/// <summary>Where files of packages lie until they are on their ticket: each under the SHA-256 of its content, whole and on disk before anything tells of it.</summary>
public sealed class DocumentShelf
{
    private const string Unfinished = ".coming";
    private const int PieceBytes = 256 * 1024;

    private readonly string _root;

    public DocumentShelf(string root)
    {
        _root = root;
        Directory.CreateDirectory(root);
        // What a stopped server was writing: its sender was never told that it arrived.
        foreach (var left in Directory.EnumerateFiles(root, "*" + Unfinished))
        {
            File.Delete(left);
        }
    }

    public string PathOf(string sha256) => Path.Combine(_root, sha256);

    public bool Has(string sha256) => File.Exists(PathOf(sha256));

    /// <summary>Every file on the shelf, by its SHA-256.</summary>
    public IEnumerable<string> All() => Directory.EnumerateFiles(_root).Select(f => Path.GetFileName(f)).Where(f => !f.EndsWith(Unfinished, StringComparison.Ordinal));

    /// <summary>A new file for something that is still to be read, such as a package; it is gone when it is closed.</summary>
    public FileStream Draft() => new(
        Path.Combine(_root, $"{Guid.NewGuid():N}{Unfinished}"),
        new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.ReadWrite, Options = FileOptions.DeleteOnClose | FileOptions.Asynchronous, BufferSize = 0 });

    /// <summary>Keeps what a stream holds.</summary>
    /// <param name="source">Read to its end.</param>
    /// <param name="most">More bytes than this are refused.</param>
    /// <param name="cancel">Cancels; nothing is kept.</param>
    /// <exception cref="DocumentRefusedException">It is longer.</exception>
    public async Task<(string Sha256, long Bytes)> KeepAsync(Stream source, long most, CancellationToken cancel)
    {
        var coming = Path.Combine(_root, $"{Guid.NewGuid():N}{Unfinished}");
        try
        {
            var (sha256, bytes) = await WriteAsync(source, coming, most, cancel);
            File.Move(coming, PathOf(sha256), overwrite: true);
            return (sha256, bytes);
        }
        finally
        {
            File.Delete(coming);
        }
    }

    public void Forget(string sha256) => File.Delete(PathOf(sha256));

    /// <summary>Forgets the files of a document; one that another document still waits for stays. Saved with the context.</summary>
    internal async Task ForgetOfAsync(PlateRoomDb db, int documentId, CancellationToken cancel)
    {
        var files = await db.DocumentFiles.Where(f => f.DocumentId == documentId).ToListAsync(cancel);
        var sums = files.ConvertAll(f => f.Sha256);
        var needed = await db.DocumentFiles.Where(f => f.DocumentId != documentId && sums.Contains(f.Sha256)).Select(f => f.Sha256).ToListAsync(cancel);
        db.DocumentFiles.RemoveRange(files);
        foreach (var sum in sums.Except(needed))
        {
            Forget(sum);
        }
    }

    private static async Task<(string Sha256, long Bytes)> WriteAsync(Stream source, string path, long most, CancellationToken cancel)
    {
        var buffer = ArrayPool<byte>.Shared.Rent(PieceBytes);
        try
        {
            using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            await using var to = new FileStream(path, FileMode.CreateNew, FileAccess.Write, FileShare.None, 0, FileOptions.Asynchronous);
            var bytes = 0L;
            for (int got; (got = await source.ReadAsync(buffer.AsMemory(0, PieceBytes), cancel)) > 0;)
            {
                bytes += got;
                if (bytes > most)
                {
                    throw new DocumentRefusedException(ReturnCodes.General, "Its files are longer than this room takes when unpacked. Send them one by one, or have the limit raised (Documents:MostUnpacked).");
                }

                hash.AppendData(buffer, 0, got);
                await to.WriteAsync(buffer.AsMemory(0, got), cancel);
            }

            to.Flush(flushToDisk: true);
            return (Convert.ToHexStringLower(hash.GetHashAndReset()), bytes);
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(buffer);
        }
    }
}

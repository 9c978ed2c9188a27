using System.Buffers;
using System.Security.Cryptography;

namespace PlateTickets.Web.Startup.Backups;

/// <summary>Files that are on disk when the call returns.</summary>
internal static class DiskFile
{
    private const int PieceBytes = 1 << 20;

    /// <summary>Backups hold password hashes and keys: only the program's own user reads them. Windows takes the folder's rights.</summary>
    public static void MakePrivateFolder(string path)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(path);
        }
        else
        {
            Directory.CreateDirectory(path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }
    }

    public static void Write(string path, ReadOnlySpan<byte> content)
    {
        using var file = new FileStream(path, FileMode.CreateNew, FileAccess.Write, FileShare.None, 0);
        file.Write(content);
        file.Flush(flushToDisk: true);
    }

    /// <summary>Waits until a file that another library wrote is on disk.</summary>
    public static void Settle(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.Read, 0);
        file.Flush(flushToDisk: true);
    }

    /// <summary>Copies a file and returns its length and SHA-256.</summary>
    public static Task<(long Bytes, string Sha256)> CopyAsync(string from, string to, CancellationToken cancel) => PassAsync(from, to, cancel);

    /// <summary>Length and SHA-256 of a file.</summary>
    public static Task<(long Bytes, string Sha256)> SumAsync(string path, CancellationToken cancel) => PassAsync(path, null, cancel);

    private static async Task<(long Bytes, string Sha256)> PassAsync(string from, string? to, CancellationToken cancel)
    {
        var buffer = ArrayPool<byte>.Shared.Rent(PieceBytes);
        try
        {
            using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            await using var source = new FileStream(from, FileMode.Open, FileAccess.Read, FileShare.Read, 0, FileOptions.Asynchronous | FileOptions.SequentialScan);
            await using var target = to is null ? null : new FileStream(to, FileMode.CreateNew, FileAccess.Write, FileShare.None, 0, FileOptions.Asynchronous);
            var bytes = 0L;
            for (int got; (got = await source.ReadAsync(buffer.AsMemory(0, PieceBytes), cancel)) > 0; bytes += got)
            {
                hash.AppendData(buffer, 0, got);
                if (target is not null)
                {
                    await target.WriteAsync(buffer.AsMemory(0, got), cancel);
                }
            }

            target?.Flush(flushToDisk: true);
            return (bytes, Convert.ToHexStringLower(hash.GetHashAndReset()));
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(buffer);
        }
    }
}

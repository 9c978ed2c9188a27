using System.Buffers;
using System.Security.Cryptography;

namespace PlateTickets.Tickets.Orders.Separations;

/// <summary>Copies an arriving file to disk in small pieces, so that it can be read at random whatever its size.</summary>
public static class SpoolFile
{
    private const int PieceBytes = 256 * 1024;

    /// <param name="source">Read once, to its end.</param>
    /// <param name="folder">Where the copy lies while it is needed.</param>
    /// <param name="longest">Longest file in bytes.</param>
    /// <param name="progress">Told the bytes so far after each piece.</param>
    /// <param name="cancel">Cancels; the copy is deleted.</param>
    /// <exception cref="SeparationException">The file is longer than allowed.</exception>
    public static async Task<SpooledFile> SpoolAsync(Stream source, string folder, long longest, IProgress<long>? progress, CancellationToken cancel)
    {
        var file = new FileStream(
            Path.Combine(folder, $"{Guid.NewGuid():N}.part"),
            new FileStreamOptions
            {
                Mode = FileMode.CreateNew,
                Access = FileAccess.ReadWrite,
                Options = FileOptions.DeleteOnClose | FileOptions.Asynchronous,
                BufferSize = 0,
            });
        var buffer = ArrayPool<byte>.Shared.Rent(PieceBytes);
        try
        {
            using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            long length = 0;
            for (int got; (got = await source.ReadAsync(buffer.AsMemory(0, PieceBytes), cancel)) > 0;)
            {
                length += got;
                if (length > longest)
                {
                    throw new SeparationException(
                        SeparationFault.TooLarge, $"The file is longer than {longest >> 20} MiB, the most that this room takes. Compress it (CCITT G4), or have the limit raised.");
                }

                hash.AppendData(buffer, 0, got);
                await file.WriteAsync(buffer.AsMemory(0, got), cancel);
                progress?.Report(length);
            }

            return new SpooledFile(file, length, Convert.ToHexStringLower(hash.GetHashAndReset()));
        }
        catch
        {
            await file.DisposeAsync();
            throw;
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(buffer);
        }
    }
}

/// <summary>A file on disk that disappears when disposed.</summary>
public sealed class SpooledFile(FileStream stream, long length, string sha256Hex) : IAsyncDisposable
{
    public Stream Stream { get; } = stream;

    public long Length { get; } = length;

    /// <summary>SHA-256 of the whole file, lower-case hexadecimal.</summary>
    public string Sha256Hex { get; } = sha256Hex;

    public ValueTask DisposeAsync() => Stream.DisposeAsync();
}

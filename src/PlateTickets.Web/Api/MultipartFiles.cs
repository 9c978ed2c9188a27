using System.Runtime.CompilerServices;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Net.Http.Headers;

namespace PlateTickets.Web.Api;

/// <summary>The files of a multipart form, one after the other as they come over the wire: nothing is buffered.</summary>
internal static class MultipartFiles
{
    private const int MostParts = 200;

    public static async IAsyncEnumerable<(string Name, Stream Content)> ReadAsync(HttpRequest request, [EnumeratorCancellation] CancellationToken cancel)
    {
        if (!MediaTypeHeaderValue.TryParse(request.ContentType, out var type)
            || !type.MediaType.Equals("multipart/form-data", StringComparison.OrdinalIgnoreCase)
            || HeaderUtilities.RemoveQuotes(type.Boundary).Value is not { Length: > 0 and <= 200 } boundary)
        {
            throw new BadHttpRequestException("Send the separations as multipart/form-data, one part a file.", StatusCodes.Status415UnsupportedMediaType);
        }

        var reader = new MultipartReader(boundary, request.Body);
        for (var parts = 0; await NextAsync(reader, cancel) is { } section; parts++)
        {
            if (parts == MostParts)
            {
                throw new BadHttpRequestException($"A form may hold {MostParts} files at most.");
            }

            if (section.AsFileSection() is { FileStream: { } content, FileName.Length: > 0 } file)
            {
                yield return (Path.GetFileName(file.FileName), content);
            }
        }
    }

    private static async Task<MultipartSection?> NextAsync(MultipartReader reader, CancellationToken cancel)
    {
        try
        {
            return await reader.ReadNextSectionAsync(cancel);
        }
        catch (Exception e) when (e is InvalidDataException or IOException and not BadHttpRequestException)
        {
            throw new BadHttpRequestException("The form ends in the middle or is not well formed: send it again.", e);
        }
    }
}

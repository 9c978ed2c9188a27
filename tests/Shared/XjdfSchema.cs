using System.Xml;
using System.Xml.Linq;
using System.Xml.Schema;

namespace PlateTickets.Tests.Shared;

/// <summary>
/// The published schema of XJDF 2.2 (CIP4, schema 2.2.42 of 2025-02-24). Its licence lets it lie beside the project as test data, not in it: where it is not found,
/// tests/run says so, and what we write is checked for its order and names only.
/// </summary>
internal static class XjdfSchema
{
    private static readonly Lazy<XmlSchemaSet?> Set = new(Load);

    /// <summary>Where it is looked for: a folder shared/ beside the checkout, or the file that PLATETICKETS_XJDF_SCHEMA names.</summary>
    public static string Path { get; } = Environment.GetEnvironmentVariable("PLATETICKETS_XJDF_SCHEMA") is { Length: > 0 } named
        ? named
        : System.IO.Path.GetFullPath(System.IO.Path.Combine(Repository.Root, "..", "shared", "data", "xjdf", "xjdf-2.2.xsd"));

    public static bool IsHere => File.Exists(Path);

    /// <summary>What the schema finds wrong with a document.</summary>
    public static IReadOnlyList<string> Wrong(byte[] document)
    {
        var wrong = new List<string>();
        XDocument read;
        using (var bytes = new MemoryStream(document))
        {
            read = XDocument.Load(bytes);
        }

        if (Set.Value is { } schema)
        {
            read.Validate(schema, (_, e) => wrong.Add($"{e.Exception.LineNumber}: {e.Message}"));
        }

        // Elements of one parent in alphabetical order, the header first (XJDF 2.2, 1.3.5.1); messages and audits as they happened.
        foreach (var parent in read.Descendants().Where(e => e.Name.LocalName is not ("XJMF" or "AuditPool")))
        {
            var names = parent.Elements().Select(e => e.Name.LocalName).Where(n => n is not ("Header" or "Notification")).ToList();
            if (!names.SequenceEqual(names.Order(StringComparer.Ordinal)) && parent.Name.LocalName is not ("Resource" or "PartAmount"))
            {
                wrong.Add($"{parent.Name.LocalName} holds {string.Join(", ", names)}: not in order.");
            }
        }

        return wrong;
    }

    private static XmlSchemaSet? Load()
    {
        if (!IsHere)
        {
            return null;
        }

        var set = new XmlSchemaSet();
        using var reader = XmlReader.Create(Path, new XmlReaderSettings { DtdProcessing = DtdProcessing.Ignore });
        set.Add(null, reader);
        set.Compile();
        return set;
    }
}

using System.Xml;
using System.Xml.Linq;

namespace PlateTickets.Tickets.Exchange.Xjdf;

/// <summary>Reads XML of strangers: no DTD, no entities of its own, nothing fetched, and neither size nor depth without limit.</summary>
public static class SafeXml
{
    /// <summary>Longest document in bytes.</summary>
    public const int MostBytes = 4 << 20;

    /// <summary>Deepest nesting; documents of the trade need about ten.</summary>
    public const int MostDepth = 64;

    /// <summary>Most elements and attributes together.</summary>
    public const int MostNodes = 100_000;

    private static readonly XmlReaderSettings Settings = new()
    {
        DtdProcessing = DtdProcessing.Prohibit,
        XmlResolver = null,
        MaxCharactersInDocument = MostBytes,
        MaxCharactersFromEntities = 1024,
        IgnoreComments = true,
        IgnoreProcessingInstructions = true,
        CloseInput = true,
    };

    /// <exception cref="DocumentRefusedException">It is no well-formed XML, or larger than anything of the trade.</exception>
    public static XDocument Read(byte[] bytes)
    {
        if (bytes.Length > MostBytes)
        {
            throw new DocumentRefusedException(ReturnCodes.Parser, $"The document has {bytes.Length >> 20} MiB; {MostBytes >> 20} MiB are taken. Send pictures as files beside it.");
        }

        try
        {
            using (var measured = XmlReader.Create(new MemoryStream(bytes), Settings))
            {
                Measure(measured);
            }

            using var reader = XmlReader.Create(new MemoryStream(bytes), Settings);
            return XDocument.Load(reader, LoadOptions.SetLineInfo);
        }
        catch (XmlException wrong)
        {
            var dtd = wrong.Message.Contains("DTD", StringComparison.Ordinal);
            throw new DocumentRefusedException(ReturnCodes.Parser, dtd
                ? "The document has a document type definition (DOCTYPE). None is read here: leave it out."
                : $"The document is not well-formed XML: {Sentence(wrong.Message)}");
        }
    }

    /// <summary>Where an element stands, for a sentence.</summary>
    public static string LineOf(XObject part) => part is IXmlLineInfo info && info.HasLineInfo() ? $"line {info.LineNumber}" : "the document";

    // Before anything of it is kept in memory.
    private static void Measure(XmlReader reader)
    {
        var nodes = 0;
        while (reader.Read())
        {
            if (reader.NodeType != XmlNodeType.Element)
            {
                continue;
            }

            nodes += 1 + reader.AttributeCount;
            if (reader.Depth > MostDepth)
            {
                throw new DocumentRefusedException(ReturnCodes.Parser, $"The document is nested more than {MostDepth} deep. It is no order.");
            }

            if (nodes > MostNodes)
            {
                throw new DocumentRefusedException(ReturnCodes.Parser, $"The document has more than {MostNodes} elements and attributes. It is no order of one job.");
            }
        }
    }

    private static string Sentence(string message) => message.EndsWith('.') ? message : $"{message}.";
}

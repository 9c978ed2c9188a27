using System.Globalization;
using System.IO.Compression;
using System.Text;

namespace PlateTickets.Tickets.Tests.Exchange;

/// <summary>Order documents, written by hand after XJDF 2.2.</summary>
internal static class XjdfText
{
    public const string Cmyk = "Cyan Magenta Yellow Black";

    /// <summary>A whole order for the demo room, that needs no question.</summary>
    public static string Order(
        string jobId = "ORD-2417", string colours = Cmyk, string due = "2026-11-27T14:00:00+01:00", string thickness = "1700", string press = "Press 1, wide film", string cylinder = "Sleeve 400",
        string company = "Northmere Dairy", string amount = "1", string more = "", string root = "", bool files = false, string media = "MediaType=\"Plate\"", string exposed = "PlateType=\"Exposed\"") =>
        string.Create(CultureInfo.InvariantCulture, $"""
        <?xml version="1.0" encoding="UTF-8"?>
        <XJDF xmlns="http://www.CIP4.org/JDFSchema_2_0" Version="2.2" JobID="{jobId}" Types="ImageSetting" DescriptiveName="Carton front" {root}>
          {(press.Length > 0 ? $"<GeneralID IDUsage=\"Press\" IDValue=\"{press}\"/>" : "")}
          {(cylinder.Length > 0 ? $"<GeneralID IDUsage=\"Cylinder\" IDValue=\"{cylinder}\"/>" : "")}
          {(company.Length > 0 ? $"<ResourceSet Name=\"Contact\" Usage=\"Input\"><Resource><Part ContactType=\"Customer\"/><Contact><ComChannel ChannelType=\"Email\" Locator=\"mailto:plates@northmere.example\"/><Company OrganizationName=\"{company}\"/></Contact></Resource></ResourceSet>" : "")}
          <ResourceSet Name="CustomerInfo" Usage="Input"><Resource><CustomerInfo CustomerID="C-0042" CustomerJobName="Butter foil 250 g" CustomerOrderID="PO 8831"/></Resource></ResourceSet>
          <ResourceSet Name="ExposedMedia" Usage="Output">
            {string.Concat(colours.Split(' ').Select(c => $"<Resource><AmountPool><PartAmount Amount=\"{amount}\"><Part Separation=\"{c}\"/></PartAmount></AmountPool><Part Separation=\"{c}\"/><ExposedMedia MediaRef=\"M\" {exposed}/></Resource>"))}
          </ResourceSet>
          <ResourceSet Name="Media" Usage="Input"><Resource ID="M"><Media {media} Thickness="{thickness}"/></Resource></ResourceSet>
          <ResourceSet Name="NodeInfo" Usage="Input"><Resource><NodeInfo {(due.Length > 0 ? $"LastEnd=\"{due}\"" : "")}/></Resource></ResourceSet>
          {(files ? $"<ResourceSet Name=\"RunList\" Usage=\"Input\">{string.Concat(colours.Split(' ').Select(c => $"<Resource><Part Separation=\"{c}\"/><RunList><FileSpec URL=\"files/{c}.tif\" MimeType=\"image/tiff\"/></RunList></Resource>"))}</ResourceSet>" : "")}
          {more}
        </XJDF>
        """);

    public static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);

    /// <summary>A zip package.</summary>
    public static byte[] Zip(params (string Name, byte[] Content)[] entries)
    {
        using var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, content) in entries)
            {
                using var entry = zip.CreateEntry(name).Open();
                entry.Write(content);
            }
        }

        return bytes.ToArray();
    }
}

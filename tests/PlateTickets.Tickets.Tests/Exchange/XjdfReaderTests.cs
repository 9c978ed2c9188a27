using System.Xml.Linq;
using PlateTickets.Tickets.Exchange.Xjdf;

namespace PlateTickets.Tickets.Tests.Exchange;

/// <summary>What an XJDF document says (names and units after XJDF 2.2: 3.4, 5.4.7, 6.57, 6.59, 9.7, 9.8).</summary>
public sealed class XjdfReaderTests
{
    [Fact]
    public void AWholeOrder_IsRead()
    {
        var order = Read(XjdfText.Order(files: true, amount: "2"));
        Assert.Equal(("ORD-2417", "Butter foil 250 g", "C-0042", "PO 8831"), (order.JobId, order.CustomerJobName, order.CustomerId, order.CustomerOrderId));
        Assert.Equal(("Northmere Dairy", "plates@northmere.example"), (order.CustomerName, order.ContactMail));
        Assert.Equal(("2026-11-27T14:00:00+01:00", "NodeInfo/@LastEnd"), (order.DueText, order.DueFrom));
        Assert.Equal(1700, order.Thickness);
        Assert.Equal(["Cyan 2 files/Cyan.tif", "Magenta 2 files/Magenta.tif", "Yellow 2 files/Yellow.tif", "Black 2 files/Black.tif"], order.Plates.Select(p => $"{p.Colour} {p.Amount} {p.FileUrl}"));
        Assert.Empty(order.Doubts);
        Assert.Empty(order.Warnings);
    }

    [Fact]
    public void ASpotInk_HasItsActualName()
    {
        // XJDF 2.2, example 9.7: a separation's token holds no blank, the colour's name does.
        var order = Read(XjdfText.Order(colours: "Black Spot1", more: """<ResourceSet Name="Color" Usage="Input"><Resource><Part Separation="Spot1"/><Color ActualColorName="Harvest Orange"/></Resource></ResourceSet>"""));
        Assert.Equal(["Black", "Harvest Orange"], order.Plates.Select(p => p.Colour));
    }

    [Fact]
    public void PlatesWithoutAPartition_AreThoseOfTheColorantOrder()
    {
        var order = Read(XjdfText.Order(colours: "Cyan", more: """<ResourceSet Name="ColorantControl" Usage="Input"><Resource><ColorantControl ColorantOrder="Cyan Black"/></Resource></ResourceSet>""")
            .Replace("""<Part Separation="Cyan"/><ExposedMedia""", "<ExposedMedia", StringComparison.Ordinal).Replace("""<Part Separation="Cyan"/></PartAmount>""", "</PartAmount>", StringComparison.Ordinal));
        Assert.Equal(["Cyan", "Black"], order.Plates.Select(p => p.Colour));
    }

    [Theory]
    [InlineData("""<ResourceSet Name="DeliveryParams" Usage="Input"><Resource><DeliveryParams Required="2026-11-28T08:00:00Z"/></Resource></ResourceSet>""", "DeliveryParams/@Required")]
    [InlineData("""<ResourceSet Name="NodeInfo" Usage="Input" ProcessUsage="EndCustomer"><Resource><NodeInfo LastEnd="2026-11-28T08:00:00Z"/></Resource></ResourceSet>""", "NodeInfo/@LastEnd of the end customer")]
    public void TheDueTime_IsFoundWhereItStands(string more, string from)
    {
        var order = Read(XjdfText.Order(due: "", more: more));
        Assert.Equal(("2026-11-28T08:00:00Z", from), (order.DueText, order.DueFrom));
    }

    [Fact]
    public void WhatIsNotUsed_IsListedOnce()
    {
        var order = Read(XjdfText.Order(
            root: "xmlns:fx=\"urn:example:fx\" fx:Room=\"7\" ProjectID=\"P1\"",
            more: """<ResourceSet Name="Ink" Usage="Input"><Resource Brand="Some ink"><Part Separation="Cyan"/><Ink InkType="Ink"/></Resource></ResourceSet><fx:Extra xmlns:fx="urn:example:fx">secret</fx:Extra>""",
            exposed: "PlateType=\"Exposed\" PunchType=\"Pins\""));
        Assert.Equal(
            ["XJDF/@fx:Room: kept, not used.", "XJDF/@ProjectID: kept, not used.", "Resource/ExposedMedia/@PunchType (4 times): kept, not used.", "ResourceSet Ink: kept, not used.", "fx:Extra: kept, not used."],
            order.Warnings);
    }

    [Theory]
    [InlineData("MediaType=\"Sleeve\"", "PlateType=\"Exposed\"", "media-type")]
    [InlineData("MediaType=\"Plate\" PlateTechnology=\"FlexoDirectEngraving\"", "", "technology")]
    [InlineData("MediaType=\"Plate\" PlateTechnology=\"FlexoAnalogSolvent\"", "", "technology")]
    [InlineData("MediaType=\"Plate\"", "PlateType=\"Dummy\"", "plate-type")]
    [InlineData("MediaType=\"Plate\"", "Polarity=\"Negative\"", "polarity")]
    [InlineData("MediaType=\"Plate\"", "Polarity=\"Sideways\"", "polarity")]
    public void WhatDecidesAPlateAndIsNotUsual_IsDoubted(string media, string exposed, string key) =>
        Assert.Equal([key], Read(XjdfText.Order(media: media, exposed: exposed)).Doubts.Select(d => d.Key));

    [Fact]
    public void SeveralForms_AreDoubted()
    {
        var text = XjdfText.Order(colours: "Cyan").Replace("""<Part Separation="Cyan"/><ExposedMedia""", """<Part Separation="Cyan" Side="Front"/><Part Separation="Cyan" Side="Back"/><ExposedMedia""", StringComparison.Ordinal);
        Assert.Equal(["forms", "twice"], Read(text).Doubts.Select(d => d.Key));
    }

    [Theory]
    [InlineData("", ReturnCodes.Parser, "not well-formed")]
    [InlineData("no xml", ReturnCodes.Parser, "not well-formed")]
    [InlineData("<a/>", ReturnCodes.Validation, "root element is a")]
    [InlineData("""<JDF xmlns="http://www.CIP4.org/JDFSchema_1_1" ID="n1"/>""", ReturnCodes.Validation, "JDF 1.x")]
    [InlineData("""<XJDF xmlns="http://www.CIP4.org/JDFSchema_2_0" Types="ImageSetting"/>""", ReturnCodes.Validation, "JobID is missing")]
    [InlineData("""<XJDF xmlns="http://www.CIP4.org/JDFSchema_2_0" JobID="1" Types="Folding"/>""", ReturnCodes.Validation, "made by ImageSetting")]
    [InlineData("""<XJDF xmlns="http://www.CIP4.org/JDFSchema_2_0" JobID="1" Types="ImageSetting"/>""", ReturnCodes.Validation, "asks for no plate")]
    [InlineData("""<XJDF xmlns="http://www.CIP4.org/JDFSchema_2_0" JobID="1" Types="ImageSetting" Version="3.0"/>""", ReturnCodes.Validation, "versions 2.x")]
    [InlineData("""<!DOCTYPE XJDF [<!ENTITY x SYSTEM "file:///etc/passwd">]><XJDF xmlns="http://www.CIP4.org/JDFSchema_2_0" JobID="&x;" Types="ImageSetting"/>""", ReturnCodes.Parser, "document type definition")]
    [InlineData("""<!DOCTYPE lolz [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]><lolz>&b;</lolz>""", ReturnCodes.Parser, "document type definition")]
    public void WhatIsNoOrder_IsRefused(string text, int code, string says)
    {
        var refused = Assert.Throws<DocumentRefusedException>(() => Read(text));
        Assert.Equal(code, refused.ReturnCode);
        Assert.Contains(says, refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void DepthSizeAndNumber_HaveLimits()
    {
        Assert.Contains("nested", Refused(string.Concat(Enumerable.Repeat("<a>", 100)) + string.Concat(Enumerable.Repeat("</a>", 100))), StringComparison.Ordinal);
        Assert.Contains("elements and attributes", Refused($"<a>{string.Concat(Enumerable.Repeat("<b/>", SafeXml.MostNodes + 1))}</a>"), StringComparison.Ordinal);
        Assert.Contains("4 MiB", Refused($"<a>{new string('x', SafeXml.MostBytes)}</a>"), StringComparison.Ordinal);

        static string Refused(string text) => Assert.Throws<DocumentRefusedException>(() => Read(text)).Message;
    }

    [Fact]
    public void ANewerVersion_IsReadWithAWord() =>
        Assert.Contains(Read(XjdfText.Order().Replace("Version=\"2.2\"", "Version=\"2.9\"", StringComparison.Ordinal)).Warnings, w => w.Contains("2.9", StringComparison.Ordinal));

    [Fact]
    public void AnIncrementalChange_TouchesOnlyWhatItNames()
    {
        // XJDF 2.2, 9.8.2.2, after its examples 9.5 and 9.6.
        var whole = XDocument.Parse(XjdfText.Order());
        XjdfMerge.Apply(
            whole,
            XDocument.Parse("""
                <XJDF xmlns="http://www.CIP4.org/JDFSchema_2_0" JobID="ORD-2417" Types="ImageSetting">
                 <ResourceSet Name="ExposedMedia" Usage="Output">
                  <Resource><AmountPool><PartAmount Amount="3"><Part Separation="Cyan"/></PartAmount></AmountPool><Part Separation="Cyan"/></Resource>
                  <Resource ID="NEW"><Part Separation="Spot1"/><ExposedMedia MediaRef="M"/></Resource>
                 </ResourceSet>
                 <ResourceSet Name="NodeInfo" Usage="Input"><Resource><NodeInfo LastEnd="2026-11-28T10:00:00Z"/></Resource></ResourceSet>
                </XJDF>
                """),
            UpdateMethod.Incremental);
        var order = XjdfReader.Read(whole);
        Assert.Equal(["Cyan 3", "Magenta 1", "Yellow 1", "Black 1", "Spot1 1"], order.Plates.Select(p => $"{p.Colour} {p.Amount}"));
        Assert.Equal(("2026-11-28T10:00:00Z", 1700.0), (order.DueText, order.Thickness));
    }

    [Fact]
    public void ARemoval_TakesWholeResources()
    {
        // XJDF 2.2, 9.8.2.3.
        var whole = XDocument.Parse(XjdfText.Order());
        XjdfMerge.Apply(
            whole,
            XDocument.Parse("""<XJDF xmlns="http://www.CIP4.org/JDFSchema_2_0" JobID="ORD-2417" Types="ImageSetting"><ResourceSet Name="ExposedMedia" Usage="Output"><Resource><Part Separation="Yellow"/></Resource></ResourceSet><ResourceSet Name="CustomerInfo" Usage="Input"/></XJDF>"""),
            UpdateMethod.Remove);
        var order = XjdfReader.Read(whole);
        Assert.Equal(["Cyan", "Magenta", "Black"], order.Plates.Select(p => p.Colour));
        Assert.Equal("", order.CustomerId);
    }

    [Fact]
    public void AChangeOfAnotherJob_IsRefused() =>
        Assert.Throws<DocumentRefusedException>(() => XjdfMerge.Apply(XDocument.Parse(XjdfText.Order()), XDocument.Parse(XjdfText.Order(jobId: "ORD-1")), UpdateMethod.Incremental));

    private static OrderDocument Read(string text) => XjdfReader.Read(XjdfText.Bytes(text));
}

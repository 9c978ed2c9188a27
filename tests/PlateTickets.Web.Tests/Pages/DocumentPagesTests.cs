using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Tests.Exchange;
using PlateTickets.Web.Exchange.Documents;

namespace PlateTickets.Web.Tests.Pages;

public class DocumentPagesTests : PageTest
{
    [Fact]
    public async Task ADocumentGivenByHand_OpensItsPage()
    {
        var page = Render<DocumentsPage>();
        Assert.Contains("No document waits for an answer", page.Markup, StringComparison.Ordinal);
        page.FindComponent<InputFile>().UploadFiles(InputFileContent.CreateFromText(XjdfText.Order(), "order.xjdf"));
        var navigation = Services.GetRequiredService<NavigationManager>();
        await UntilAsync(() => navigation.Uri.Contains("/orders/documents/", StringComparison.Ordinal));
        await using var db = Room.CreateDbContext();
        Assert.Equal((DocumentDoor.Hand, "Tester", DocumentState.Done), await db.ReceivedDocuments.Select(d => new ValueTuple<DocumentDoor, string, DocumentState>(d.Door, d.Sender, d.State)).SingleAsync());
    }

    [Fact]
    public void WhatIsNoOrder_IsRefusedInASentence()
    {
        var page = Render<DocumentsPage>();
        page.FindComponent<InputFile>().UploadFiles(InputFileContent.CreateFromText("hello", "notes.xjdf"));
        page.WaitForAssertion(() => Assert.Contains("not well-formed XML", page.Find(".refusals").TextContent, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Questions_AreAnsweredOnThePage()
    {
        var held = await Documents.TakeAsync(new DocumentArrival(DocumentDoor.Http, "Order desk", "order.xjdf", XjdfText.Bytes(XjdfText.Order(press: "", cylinder: "", company: "Fernhill Foods", thickness: "1.7", media: "MediaType=\"Plate\" PlateTechnology=\"FlexoAnalogSolvent\"", amount: "0"))));
        var list = Render<DocumentsPage>();
        Assert.Contains("names no press", list.Find("tbody").TextContent, StringComparison.Ordinal);

        var page = Render<DocumentPage>(p => p.Add(d => d.Id, held.Document.Id));
        Assert.Contains("did its sender mean 1.7 mm", page.Markup, StringComparison.Ordinal);
        var press = (await Room.Rooms.GetAsync()).Presses[0];
        await page.InvokeAsync(() => Labelled(page, "Press").Change($"{press.Id}"));
        await page.InvokeAsync(() => Labelled(page, "Cylinder").Change($"{press.Cylinders[0].Id}"));
        await page.InvokeAsync(() => Labelled(page, "Material").Change($"{press.UsualMaterialId}"));
        await page.InvokeAsync(() => Labelled(page, "Plates of each colour").Change("2"));
        await page.InvokeAsync(() => page.Find(".question .tick input").Change(true));
        await page.InvokeAsync(() => page.FindAll("button").Single(b => b.TextContent.Trim() == "Enter the order").Click());
        page.WaitForAssertion(() => Assert.Contains("Entered; its files follow", page.Markup, StringComparison.Ordinal));
        await using var db = Room.CreateDbContext();
        var order = await db.Orders.Include(o => o.Customer).SingleAsync();
        Assert.Equal(("Fernhill Foods", 400_000, 2), (order.Customer!.Name, order.RepeatUm, order.Copies));
    }

    [Fact]
    public async Task ADifference_IsShownAndMadeByAYes()
    {
        var first = await Documents.TakeAsync(new DocumentArrival(DocumentDoor.Http, "Order desk", "order.xjdf", XjdfText.Bytes(XjdfText.Order(colours: "Cyan"))));
        var change = await Documents.TakeAsync(new DocumentArrival(DocumentDoor.Http, "Order desk", "order.xjdf", XjdfText.Bytes(XjdfText.Order(colours: "Cyan", cylinder: "Sleeve 480"))));
        var page = Render<DocumentPage>(p => p.Add(d => d.Id, change.Document.Id));
        Assert.Contains("480 mm", page.FindAll("table")[1].TextContent, StringComparison.Ordinal);
        await page.InvokeAsync(() => page.FindAll("button").Single(b => b.TextContent.Trim() == "Cancel the ticket and make the new one").Click());
        page.WaitForAssertion(() => Assert.Contains("Entered", page.Find(".state").TextContent, StringComparison.Ordinal));
        Assert.DoesNotContain(first.Ticket!, page.Find(".sentence-line").TextContent.Replace(" ", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public async Task SettingAside_NeedsAReason()
    {
        var held = await Documents.TakeAsync(new DocumentArrival(DocumentDoor.Http, "Order desk", "order.xjdf", XjdfText.Bytes(XjdfText.Order(press: ""))));
        var page = Render<DocumentPage>(p => p.Add(d => d.Id, held.Document.Id));
        await page.InvokeAsync(() => page.FindAll("button").Single(b => b.TextContent.Trim() == "Set aside").Click());
        Assert.Contains("Say why the document is set aside", page.Find(".refusals").TextContent, StringComparison.Ordinal);
        await page.InvokeAsync(() => Labelled(page, "Nothing is done with it because").Change("a test of the sender"));
        await page.InvokeAsync(() => page.FindAll("button").Single(b => b.TextContent.Trim() == "Set aside").Click());
        page.WaitForAssertion(() => Assert.Contains("a test of the sender", page.Find(".sentence-line").TextContent, StringComparison.Ordinal));
    }

    [Fact]
    public async Task AJobOnHold_CanBeLetGoOnByAPerson()
    {
        var held = await Documents.TakeAsync(new DocumentArrival(DocumentDoor.Http, "Order desk", "order.xjdf", XjdfText.Bytes(XjdfText.Order())) { StartsHeld = true });
        var page = Render<DocumentPage>(p => p.Add(d => d.Id, held.Document.Id));
        Assert.Contains("on hold as its sender wishes", page.Find(".sentence-line").TextContent, StringComparison.Ordinal);
        await page.InvokeAsync(() => page.FindAll("button").Single(b => b.TextContent.Trim() == "Let it go on").Click());
        page.WaitForAssertion(() => Assert.Contains("its files follow", page.Find(".sentence-line").TextContent, StringComparison.Ordinal));
        Assert.DoesNotContain(page.FindAll("button"), b => b.TextContent.Trim() == "Let it go on");
    }

    [Fact]
    public void NoDocument_IsSaidPlainly() => Assert.Contains("No such document", Render<DocumentPage>(p => p.Add(d => d.Id, 77)).Markup, StringComparison.Ordinal);

    private static AngleSharp.Dom.IElement Labelled(IRenderedComponent<DocumentPage> page, string label) =>
        page.FindAll("label").First(l => l.TextContent.Trim().StartsWith(label, StringComparison.Ordinal)).QuerySelector("select, input")!;
}

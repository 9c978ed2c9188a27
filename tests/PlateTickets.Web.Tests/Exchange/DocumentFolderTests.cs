using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Tests.Exchange;

namespace PlateTickets.Web.Tests.Exchange;

/// <summary>Documents that lie in a folder: taken once, moved to done/, or to rejected/ with the reason beside them.</summary>
public sealed class DocumentFolderTests
{
    [Fact]
    public async Task Documents_GoToDone_OrToRejectedWithTheirReason()
    {
        var folder = Directory.CreateTempSubdirectory("document-folder-").FullName;
        try
        {
            await using var room = await RoomServer.StartAsync("demo", null, "--Documents:DropFolder", folder, "--Documents:SettleSeconds", "1");
            await File.WriteAllTextAsync(Path.Combine(folder, "good.xjdf"), XjdfText.Order(jobId: "FOLDER-1"));
            await File.WriteAllTextAsync(Path.Combine(folder, "asked.xjdf"), XjdfText.Order(jobId: "FOLDER-2", thickness: "1.7"));
            await File.WriteAllTextAsync(Path.Combine(folder, "broken.xjdf"), "<XJDF");
            await File.WriteAllTextAsync(Path.Combine(folder, "coming.xjdf.part"), "<XJDF");
            await UntilAsync(room, () => Directory.GetFiles(folder, "*.xjdf").Length == 0);
            Assert.Equal(["asked.xjdf", "good.xjdf"], Directory.GetFiles(Path.Combine(folder, "done")).Select(f => Path.GetFileName(f)).Order());
            Assert.Equal(["broken.xjdf", "broken.xjdf.reason.txt"], Directory.GetFiles(Path.Combine(folder, "rejected")).Select(f => Path.GetFileName(f)).Order());
            var reason = await File.ReadAllTextAsync(Path.Combine(folder, "rejected", "broken.xjdf.reason.txt"));
            Assert.Contains("broken.xjdf was not taken.", reason, StringComparison.Ordinal);
            Assert.Contains("not well-formed XML", reason, StringComparison.Ordinal);
            Assert.True(File.Exists(Path.Combine(folder, "coming.xjdf.part")));

            // The same again keeps both files and makes no second order.
            await File.WriteAllTextAsync(Path.Combine(folder, "good.xjdf"), XjdfText.Order(jobId: "FOLDER-1"));
            await UntilAsync(room, () => Directory.GetFiles(folder, "*.xjdf").Length == 0);
            Assert.Equal(3, Directory.GetFiles(Path.Combine(folder, "done")).Length);
            var desk = room.Services.GetRequiredService<DocumentDesk>();
            Assert.Equal(["Document folder"], (await desk.ListAsync(waiting: false)).Select(d => d.Sender));
            Assert.Equal("FOLDER-2", (await desk.ListAsync(waiting: true)).Single().JobId);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task UntilAsync(RoomServer room, Func<bool> happened)
    {
        for (var i = 0; i < 150 && !happened(); i++)
        {
            room.Clock.Advance(TimeSpan.FromSeconds(1));
            await Task.Delay(100);
        }

        Assert.True(happened(), "It did not happen within 15 s.");
    }
}

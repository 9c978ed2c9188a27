using Microsoft.Playwright;
using PlateTickets.Tests.Shared;

namespace PlateTickets.Browser;

/// <summary>Pictures of the pages for the README. They are written on request only: PLATETICKETS_SCREENSHOTS=1.</summary>
internal static class Screenshots
{
    private static readonly bool Wanted = Environment.GetEnvironmentVariable("PLATETICKETS_SCREENSHOTS") == "1";
    private static readonly string Folder = Path.Combine(Repository.Root, "docs", "screenshots");

    public static async Task TakeAsync(IPage page, string name)
    {
        if (Wanted)
        {
            var path = Path.Combine(Folder, name + ".png");
            await page.ScreenshotAsync(new() { Path = path, Animations = ScreenshotAnimations.Disabled });
            // A page has few colours: with a table of 256 a picture is a third as large.
            Tool.Run("imagemagick", "convert", path, "-colors", "256", "-define", "png:compression-level=9", "PNG8:" + path);
        }
    }

    public static void Keep(string image, string name)
    {
        if (Wanted)
        {
            Directory.CreateDirectory(Folder);
            File.Copy(image, Path.Combine(Folder, name + ".png"), overwrite: true);
        }
    }
}

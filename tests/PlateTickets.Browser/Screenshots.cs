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
            Shrink(path);
        }
    }

    public static void Keep(string image, string name)
    {
        if (Wanted)
        {
            Directory.CreateDirectory(Folder);
            var path = Path.Combine(Folder, name + ".png");
            File.Copy(image, path, overwrite: true);
            Shrink(path);
        }
    }

    // A page has few colours: with a table of 256 a picture is a third as large.
    private static void Shrink(string path) => Tool.Run("imagemagick", "convert", path, "-colors", "256", "-define", "png:compression-level=9", "PNG8:" + path);
}

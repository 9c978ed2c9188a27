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
            await page.ScreenshotAsync(new() { Path = Path.Combine(Folder, name + ".png"), Animations = ScreenshotAnimations.Disabled });
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

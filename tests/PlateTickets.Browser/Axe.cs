using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace PlateTickets.Browser;

/// <summary>Asks axe-core (Deque, MPL-2.0) about a page. It runs in the page itself: nothing here has frames, and a page of its own for each report takes ten times as long.</summary>
internal static class Axe
{
    private static readonly string Script = new BundledAxeScriptProvider().GetScript();

    /// <summary>Every rule, in the look that is shown.</summary>
    public static async Task CleanAsync(IPage page) => Assert.Empty(await AskAsync(page, "{}"));

    /// <summary>The colours alone: nothing else differs between looks.</summary>
    public static async Task ReadableAsync(IPage page) => Assert.Empty(await AskAsync(page, "{ runOnly: ['color-contrast'] }"));

    private static async Task<string[]> AskAsync(IPage page, string options)
    {
        if (!await page.EvaluateAsync<bool>("typeof axe !== 'undefined'"))
        {
            await page.EvaluateAsync(Script + ";0");
        }

        return await page.EvaluateAsync<string[]>(
            $$"""
            async () => {
              const found = await axe.run({ ...{{options}}, resultTypes: ['violations'] });
              return found.violations.flatMap(v => v.nodes.map(n => `${v.id}, ${document.documentElement.dataset.look ?? 'as the device says'}: ${n.html} ${n.failureSummary}`));
            }
            """);
    }
}

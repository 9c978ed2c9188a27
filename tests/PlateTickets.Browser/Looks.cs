using Microsoft.Playwright;

namespace PlateTickets.Browser;

/// <summary>Shows an open page in another look, without the cookie.</summary>
internal static class Looks
{
    /// <summary>Comes back when nothing fades any more: a colour on its way would be measured wrongly.</summary>
    public static Task ShowAsync(IPage page, string look) => page.EvaluateAsync(
        """
        async look => {
          document.documentElement.dataset.look = look;
          await new Promise(requestAnimationFrame);
          await Promise.allSettled(document.getAnimations().filter(a => a instanceof CSSTransition).map(a => a.finished));
        }
        """,
        look);

    /// <summary>What axe says of the colours alone: nothing else differs between looks. It must have looked at the page once, and so be there.</summary>
    public static Task<string[]> UnreadableAsync(IPage page) => page.EvaluateAsync<string[]>(
        """
        async () => {
          const found = await axe.run({ runOnly: ['color-contrast'], resultTypes: ['violations'] });
          return found.violations.flatMap(v => v.nodes).map(n => `${document.documentElement.dataset.look}: ${n.html} ${n.any[0].message}`);
        }
        """);

    /// <summary>The colour behind everything, as the browser computed it.</summary>
    public static Task<string> GroundAsync(IPage page) => page.EvaluateAsync<string>("getComputedStyle(document.body).backgroundColor");
}

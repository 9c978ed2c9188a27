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

    /// <summary>The colour behind everything, as the browser computed it.</summary>
    public static Task<string> GroundAsync(IPage page) => page.EvaluateAsync<string>("getComputedStyle(document.body).backgroundColor");
}

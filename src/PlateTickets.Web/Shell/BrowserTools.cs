using Microsoft.JSInterop;

namespace PlateTickets.Web.Shell;

/// <summary>The few things that only the browser can do, from js/room.js.</summary>
public sealed class BrowserTools(IJSRuntime js)
{
    /// <summary>What this browser kept under a name, or an empty string.</summary>
    public async ValueTask<string> RecallAsync(string name) => await js.InvokeAsync<string?>("plateRoom.recall", name) ?? "";

    public ValueTask KeepAsync(string name, string value) => js.InvokeVoidAsync("plateRoom.keep", name, value);
}

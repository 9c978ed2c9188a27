using Microsoft.JSInterop;

namespace PlateTickets.Web.Shell;

/// <summary>The few things that only the browser can do, from js/room.js.</summary>
public sealed class BrowserTools(IJSRuntime js)
{
    /// <summary>What this browser kept under a name, or an empty string.</summary>
    public async ValueTask<string> RecallAsync(string name) => await js.InvokeAsync<string?>("plateRoom.recall", name) ?? "";

    /// <summary>Keeps a preference that the server must know before the first page is drawn; an empty value takes it away.</summary>
    public ValueTask KeepCookieAsync(string name, string value) => js.InvokeVoidAsync("plateRoom.keepCookie", name, value);

    public ValueTask KeepAsync(string name, string value) => js.InvokeVoidAsync("plateRoom.keep", name, value);

    /// <summary>What was typed into a field with data-draft and not saved; null for nothing.</summary>
    public ValueTask<string?> DraftAsync(string name) => js.InvokeAsync<string?>("plateRoom.draftOf", name);

    /// <summary>What this tab keeps of a form with data-form; null for nothing.</summary>
    public ValueTask<string?> FormAsync(string name) => js.InvokeAsync<string?>("plateRoom.formOf", name);

    /// <summary>Keeps what a form holds, as JSON, for this tab until it is taken away with null. Fields with data-typed are kept by the browser while they are typed.</summary>
    public ValueTask KeepFormAsync(string name, string? json) => js.InvokeVoidAsync("plateRoom.keepForm", name, json);

    /// <summary>The server has this text: the browser lets it go unless more was typed. Null lets go of whatever there is.</summary>
    public ValueTask DraftSavedAsync(string name, string? saved) => js.InvokeVoidAsync("plateRoom.draftSaved", name, saved);
}

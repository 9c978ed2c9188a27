using Microsoft.AspNetCore.Components;
using PlateTickets.Process;

namespace PlateTickets.Web.Accounts;

/// <summary>
/// A page that sets or reads a cookie: it is made by a request of its own, not by a circuit. A refusal stays on the page with what was typed,
/// passwords excepted.
/// </summary>
public abstract class DoorPage : ComponentBase
{
    /// <summary>Why the form was refused; empty when it was not.</summary>
    protected string Refusal { get; private set; } = "";

    /// <summary>What was done.</summary>
    protected string Done { get; set; } = "";

    [CascadingParameter]
    public required HttpContext Context { get; set; }

    [Inject]
    public required NavigationManager Navigation { get; set; }

    /// <summary>Where the person wanted to go.</summary>
    [SupplyParameterFromQuery]
    public string? Back { get; set; }

    /// <summary>An address of this program and of no other, or the start page.</summary>
    internal static string Local(string? address) =>
        address is ['/', ..] && !address.StartsWith("//", StringComparison.Ordinal) && !address.StartsWith("/\\", StringComparison.Ordinal) && !address.Any(char.IsControl)
            ? address
            : Urls.Home;

    protected void GoBack() => Navigation.NavigateTo(Local(Back));

    protected async Task TryAsync(Func<Task> work)
    {
        Refusal = Done = "";
        try
        {
            await work();
        }
        catch (PlateRoomException refused)
        {
            Refusal = refused.Message;
        }
    }
}

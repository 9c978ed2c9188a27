using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Mvc;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Accounts;

/// <summary>Forms without a page of their own.</summary>
internal static class DoorForms
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapPost(Urls.SignOut, SignOutAsync).AllowAnonymous().ExcludeFromDescription();
        app.MapPost(Urls.DemoSignIn, DemoAsync).AllowAnonymous().ExcludeFromDescription();
    }

    private static async Task<IResult> SignOutAsync(SignInDesk desk, IAntiforgery antiforgery, HttpContext context)
    {
        // Nothing of the form is read, so nothing else would ask for its token: another site must not sign people out.
        if (!await antiforgery.IsRequestValidAsync(context))
        {
            return TypedResults.Problem("This form is not from here any more. Go back, load the page again and sign out there.", statusCode: StatusCodes.Status400BadRequest);
        }

        await desk.OutAsync();
        return TypedResults.LocalRedirect(Urls.SignIn);
    }

    private static async Task<IResult> DemoAsync([FromForm] Role role, SignInDesk desk, [FromForm] string? back = null)
    {
        try
        {
            await desk.AsDemoAsync(Rights.Roles.Contains(role) ? role : throw new PlateRoomException("There is no such role."));
            return TypedResults.LocalRedirect(DoorPage.Local(back));
        }
        catch (PlateRoomException refused)
        {
            return TypedResults.Problem(refused.Message, statusCode: StatusCodes.Status403Forbidden);
        }
    }
}

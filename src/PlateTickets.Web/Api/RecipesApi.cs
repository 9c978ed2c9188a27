using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Accounts;

namespace PlateTickets.Web.Api;

internal static class RecipesApi
{
    public static void Map(IEndpointRouteBuilder api) => api.MapGet("/recipes.csv", ExportAsync).Needs(Right.Look)
        .WithSummary("The released recipe of each material as CSV")
        .Produces(StatusCodes.Status200OK, contentType: "text/csv");

    private static async Task<IResult> ExportAsync(RoomCatalog rooms, CancellationToken cancel)
    {
        var room = await rooms.GetAsync(cancel);
        var csv = RecipeCsv.Export(room.Materials.Values.Select(m => (m, room.Released(m.Id))).Where(r => r.Item2 is not null).Select(r => (r.m, r.Item2!.Settings)));
        return TypedResults.File([.. PlateTickets.Tickets.Csv.Mark, .. System.Text.Encoding.UTF8.GetBytes(csv)], "text/csv", "recipes.csv");
    }
}

using System.CommandLine;
using PlateTickets.Web.Accounts;

namespace PlateTickets.Web.Startup.Commands;

/// <summary>Prints which page and endpoint needs which right, as Markdown.</summary>
internal sealed class RightsCommand(CommandRoom room) : RoomCommand(room, "rights", "Print the table of roles, rights, pages and endpoints")
{
    protected override async Task<int> RunAsync(ParseResult asked, CancellationToken cancel)
    {
        await Room.Output.WriteAsync(RightsTable.Markdown(RightsTable.Of(Room.Endpoints)));
        return 0;
    }
}

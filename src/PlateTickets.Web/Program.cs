using PlateTickets.Process;
using PlateTickets.Web.Startup;
using PlateTickets.Web.Startup.Commands;

if (RoomCommands.Asked(args))
{
    return await RoomCommands.RunAsync(args, Console.Out, Console.Error);
}

IReadOnlyList<WebApplication> rooms;
try
{
    rooms = PlateRoomApp.BuildAll(args);
}
catch (PlateRoomException wrong)
{
    await Console.Error.WriteLineAsync(wrong.Message);
    return 1;
}

await PlateRoomApp.RunAsync(rooms);
foreach (var room in rooms)
{
    await room.DisposeAsync();
}

return 0;

using PlateTickets.Web.Startup;
using PlateTickets.Web.Startup.Commands;

if (RoomCommands.Asked(args))
{
    return await RoomCommands.RunAsync(args, Console.Out, Console.Error);
}

await using var app = PlateRoomApp.Build(args);
await PlateRoomApp.PrepareAsync(app);
await app.RunAsync();
return 0;

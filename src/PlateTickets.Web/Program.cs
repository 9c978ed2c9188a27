using PlateTickets.Web.Startup;

await using var app = PlateRoomApp.Build(args);
await PlateRoomApp.PrepareAsync(app);
await app.RunAsync();

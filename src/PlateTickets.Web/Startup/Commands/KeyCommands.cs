using System.CommandLine;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Startup.Commands;

/// <summary>Makes an API key and prints it: the only time that it can be read.</summary>
internal sealed class CreateKeyCommand : RoomCommand
{
    private readonly Argument<string> _name = new("NAME") { Description = "The program that will use the key" };
    private readonly Option<string[]> _roles = new("--role") { Description = "What it may do: csr, operator, lead, manager or administrator; several times for several", Required = true, AllowMultipleArgumentsPerToken = true };
    private readonly Option<int> _days = new("--days") { Description = "For how many days it is good, 1 to 730", DefaultValueFactory = _ => 365 };

    public CreateKeyCommand(CommandRoom room)
        : base(room, "create", "Make an API key")
    {
        Arguments.Add(_name);
        Options.Add(_roles);
        Options.Add(_days);
    }

    protected override async Task<int> RunAsync(ParseResult asked, CancellationToken cancel)
    {
        var roles = asked.GetRequiredValue(_roles).Aggregate(Role.None, (sum, word) => sum | RoleOf(word));
        await Room.PrepareAsync();
        var key = await Room.Services.GetRequiredService<ApiKeys>().CreateAsync(
            asked.GetRequiredValue(_name), roles, TimeSpan.FromDays(asked.GetValue(_days)), CommandRoom.Who, cancel);
        await SayAsync(key);
        await Room.Errors.WriteLineAsync("Keep it now: it is shown only once. A program sends it as “Authorization: Bearer KEY”.");
        return 0;
    }

    internal static Role RoleOf(string word) => Rights.Roles.FirstOrDefault(r => r.ToString().Equals(word, StringComparison.OrdinalIgnoreCase)) is var role && role != Role.None
        ? role
        : throw new PlateRoomException($"There is no role “{word}”. Roles: {string.Join(", ", Rights.Roles.Select(r => r.ToString().ToLowerInvariant()))}.");
}

internal sealed class ListKeysCommand(CommandRoom room) : RoomCommand(room, "list", "List the API keys")
{
    protected override async Task<int> RunAsync(ParseResult asked, CancellationToken cancel)
    {
        await using (await Room.OpenAsync(cancel))
        {
            var now = Room.Services.GetRequiredService<TimeProvider>().GetUtcNow().UtcDateTime;
            foreach (var key in await Room.Services.GetRequiredService<ApiKeys>().ListAsync(cancel))
            {
                var until = key.RevokedUtc is { } revoked ? $"revoked {revoked:u}" : key.IsGood(now) ? $"until {key.ExpiresUtc:u}" : $"expired {key.ExpiresUtc:u}";
                await SayAsync($"{key.Name}  {key.Start}…  {key.Roles.Title()}  {until}  {(key.LastUsedUtc is { } used ? $"last used {used:u}" : "never used")}");
            }
        }

        return 0;
    }
}

internal sealed class RevokeKeyCommand : RoomCommand
{
    private readonly Argument<string> _name = new("NAME") { Description = "The program whose key ends now" };

    public RevokeKeyCommand(CommandRoom room)
        : base(room, "revoke", "Revoke an API key")
    {
        Arguments.Add(_name);
    }

    protected override async Task<int> RunAsync(ParseResult asked, CancellationToken cancel)
    {
        var name = asked.GetRequiredValue(_name);
        await using (await Room.OpenAsync(cancel))
        {
            var keys = Room.Services.GetRequiredService<ApiKeys>();
            var now = Room.Services.GetRequiredService<TimeProvider>().GetUtcNow().UtcDateTime;
            var key = (await keys.ListAsync(cancel)).FirstOrDefault(k => k.Name == name && k.IsGood(now))
                ?? throw new PlateRoomException($"No good key has the name “{name}”. “keys list” shows them.");
            await keys.RevokeAsync(key.Id, CommandRoom.Who, cancel);
            await SayAsync($"The key of {name} is revoked.");
        }

        return 0;
    }
}

using System.CommandLine;

namespace PlateTickets.Web.Startup.Commands;

/// <summary>
/// What the program does besides serving pages: <c>COMMAND [arguments] [settings]</c>. A command ends with 0, or with 1 and a sentence.
/// </summary>
internal static class RoomCommands
{
    private static readonly string[] HelpWords = ["--help", "-h", "-?", "--version"];

    /// <summary>Every command: a class of its own and a line here.</summary>
    private static Command[] All(CommandRoom room) =>
    [
        new StatusCommand(room),
        Group("keys", "API keys of programs", new CreateKeyCommand(room), new ListKeysCommand(room), new RevokeKeyCommand(room)),
        new RightsCommand(room),
        Group("audit", "The record of who changed what", new VerifyAuditCommand(room)),
        new BackupCommand(room),
        new CheckCommand(room),
        new RestoreCommand(room),
        new CopyCommand(room),
    ];

    /// <summary>Does the first argument ask for a command? The web program's own arguments begin with a dash or set a value.</summary>
    public static bool Asked(string[] args) =>
        args.Length > 0 && (HelpWords.Contains(args[0]) || !(args[0].StartsWith('-') || args[0].StartsWith('/') || args[0].Contains('=', StringComparison.Ordinal)));

    public static async Task<int> RunAsync(string[] args, TextWriter output, TextWriter errors, CancellationToken cancel = default)
    {
        var (settings, words) = SettingArguments.Split(args);
        await using var room = new CommandRoom(settings, output, errors);
        var root = new RootCommand(
            "PlateTickets: job tickets and live plan of a flexographic plate room. Without a command it serves its pages. "
            + "After a command the settings of the program are understood as well, such as --data FOLDER or --Room:TimeZone ZONE.");
        foreach (var command in All(room))
        {
            root.Subcommands.Add(command);
        }

        var console = new InvocationConfiguration { Output = output, Error = errors, EnableDefaultExceptionHandler = false };
        return await root.Parse(words).InvokeAsync(console, cancel);
    }

    /// <summary>Commands that begin with the same word, such as "keys create" and "keys list".</summary>
    private static Command Group(string name, string says, params IEnumerable<Command> commands)
    {
        var group = new Command(name, says);
        foreach (var command in commands)
        {
            group.Subcommands.Add(command);
        }

        return group;
    }
}

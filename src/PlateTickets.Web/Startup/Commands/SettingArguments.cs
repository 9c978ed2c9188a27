namespace PlateTickets.Web.Startup.Commands;

/// <summary>Tells the settings of the program, which the configuration reads, from the words and options of a command.</summary>
internal static class SettingArguments
{
    private static readonly string[] ShortNames = ["--data", "--room", "--site", "--urls", "--contentRoot", "--environment"];

    public static (string[] Settings, string[] Words) Split(string[] args)
    {
        var (settings, words) = (new List<string>(), new List<string>());
        for (var i = 0; i < args.Length; i++)
        {
            var name = args[i].Split('=')[0];
            // A setting's name has a section, such as --Room:TimeZone; an option of a command has none.
            if (!name.StartsWith("--", StringComparison.Ordinal) || !(name.Contains(':', StringComparison.Ordinal) || ShortNames.Contains(name, StringComparer.OrdinalIgnoreCase)))
            {
                words.Add(args[i]);
                continue;
            }

            settings.Add(args[i]);
            if (name.Length == args[i].Length && i + 1 < args.Length)
            {
                settings.Add(args[++i]);
            }
        }

        return ([.. settings], [.. words]);
    }
}

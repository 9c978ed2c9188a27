using System.Globalization;

namespace PlateTickets.Benchmarks;

/// <summary>What was typed after a command: files, and options that each take one value.</summary>
internal sealed record Options(IReadOnlyList<string> Files, IReadOnlyDictionary<string, string> Values)
{
    public static Options Of(string[] args, params string[] known)
    {
        var (files, values) = (new List<string>(), new Dictionary<string, string>());
        for (var i = 0; i < args.Length; i++)
        {
            if (!args[i].StartsWith("--", StringComparison.Ordinal))
            {
                files.Add(args[i]);
            }
            else if (!known.Contains(args[i]) || i + 1 == args.Length)
            {
                throw new FormatException($"{args[i]} is not understood here: use {string.Join(", ", known)}, each with a value.");
            }
            else
            {
                values[args[i]] = args[++i];
            }
        }

        return new Options(files, values);
    }

    public string? Text(string name) => Values.GetValueOrDefault(name);

    public double Number(string name, double otherwise) => !Values.TryGetValue(name, out var text) ? otherwise
        : double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) ? number
        : throw new FormatException($"{name} takes a number, not “{text}”.");
}

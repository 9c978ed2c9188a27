using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace PlateTickets.Benchmarks.Ovens;

internal sealed record OvenJob(int[] Machines, int Release, int Due, int MinTime, int MaxTime, int Size, int Attribute);

/// <summary>An oven with its working intervals, empty ones left out, in order of time.</summary>
internal sealed record OvenMachine(int Capacity, int FirstAttribute, (int Start, int End)[] Shifts);

/// <summary>What a unit of each part of the goal costs.</summary>
internal sealed record OvenWeights(long RunTime, long Late, long SetupTime, long SetupCost);

/// <summary>A published instance of oven scheduling. Machines and attributes count from 0 here, from 1 in the file; the first row of a set-up table (no attribute yet) is kept.</summary>
internal sealed partial record OvenFile(
    string Name, OvenMachine[] Machines, OvenJob[] Jobs, int[][] SetupTimes, int[][] SetupCosts, OvenWeights Weights)
{
    public int Attributes => SetupTimes.Length - 1;

    public int SetupTime(int from, int to) => SetupTimes[from + 1][to];

    public int SetupCost(int from, int to) => SetupCosts[from + 1][to];

    public static OvenFile Read(string path)
    {
        var entries = new Entries(path, File.ReadAllText(path));
        var (attributes, machines, jobs, shifts) = (entries.Count("nAttributes"), entries.Count("nMachines"), entries.Count("nJobs"), entries.Count("nShifts"));
        var (starts, ends) = (entries.Table("ShiftStartTimes", machines, shifts), entries.Table("ShiftEndTimes", machines, shifts));
        var (capacity, state) = (entries.List("MaxCap", machines), entries.List("initState", machines, 1, attributes));
        if (entries.List("MinCap", machines).Any(c => c != 0))
        {
            throw entries.Wrong("MinCap", "a batch that must be filled to a minimum is not planned here; use 0");
        }

        var eligible = entries.Table("EligibleMachines", jobs, null, 1, machines);
        var (release, due) = (entries.List("EarliestStart", jobs), entries.List("LatestEnd", jobs));
        var (least, most) = (entries.List("MinTime", jobs, 1), entries.List("MaxTime", jobs, 1));
        var (size, attribute) = (entries.List("JobSize", jobs), entries.List("Attribute", jobs, 1, attributes));
        for (var j = 0; j < jobs; j++)
        {
            if (!eligible[j].Any(m => size[j] <= capacity[m - 1]))
            {
                throw entries.Wrong("EligibleMachines", $"job {j + 1} of size {size[j]} fits on none of its machines");
            }

            if (least[j] > most[j])
            {
                throw entries.Wrong("MaxTime", $"job {j + 1} may stay {most[j]} but must stay {least[j]}");
            }
        }

        return new OvenFile(
            Path.GetFileNameWithoutExtension(path),
            [.. Enumerable.Range(0, machines).Select(m => new OvenMachine(
                capacity[m], state[m] - 1, [.. starts[m].Zip(ends[m]).Where(s => s.Second > s.First).Order()]))],
            [.. Enumerable.Range(0, jobs).Select(j => new OvenJob(
                [.. eligible[j].Select(m => m - 1).Order()], release[j], due[j], least[j], most[j], size[j], attribute[j] - 1))],
            entries.Table("SetupTimes", attributes + 1, attributes),
            entries.Table("SetupCosts", attributes + 1, attributes),
            new OvenWeights(
                entries.Whole("mult_factor_total_runtime"), entries.Whole("mult_factor_finished_toolate"),
                entries.Whole("mult_factor_total_setuptimes"), entries.Whole("mult_factor_total_setupcosts")));
    }

    // name = value; where a value is a number, a list in [] or a set in {}.
    private sealed partial class Entries
    {
        private readonly string _path;
        private readonly Dictionary<string, (string Text, int Line)> _values = [];

        public Entries(string path, string text)
        {
            _path = path;
            var (at, line) = (0, 1);
            while (!string.IsNullOrWhiteSpace(text[at..]))
            {
                var match = Entry().Match(text, at);
                line += text.AsSpan(at, match.Success ? match.Groups[1].Index - at : 0).Count('\n');
                if (!match.Success)
                {
                    line += text.AsSpan(at).IndexOfAnyExcept(" \t\r\n") is var first && first > 0 ? text.AsSpan(at, first).Count('\n') : 0;
                    throw new FormatException($"{path}, line {line}: expected name=value; and found neither.");
                }

                if (!_values.TryAdd(match.Groups[1].Value, (match.Groups[2].Value, line)))
                {
                    throw new FormatException($"{path}, line {line}: {match.Groups[1].Value} is given twice.");
                }

                line += text.AsSpan(match.Groups[1].Index, match.Index + match.Length - match.Groups[1].Index).Count('\n');
                at = match.Index + match.Length;
            }
        }

        public int Count(string name) => Whole(name) is > 0 and < 100_000 and var count ? (int)count : throw Wrong(name, "must be a number from 1");

        public long Whole(string name) => long.TryParse(Text(name), NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? number
            : throw Wrong(name, $"“{Text(name)}” is no whole number from 0");

        public int[] List(string name, int count, int least = 0, int most = int.MaxValue)
        {
            var list = Json<int[]>(name);
            Check(name, list, count, least, most);
            return list;
        }

        public int[][] Table(string name, int rows, int? columns, int least = 0, int most = int.MaxValue)
        {
            var table = Json<int[][]>(name);
            if (table.Length != rows)
            {
                throw Wrong(name, $"has {table.Length} rows, not {rows}");
            }

            foreach (var row in table)
            {
                Check(name, row, columns, least, most);
            }

            return table;
        }

        public FormatException Wrong(string name, string what) => new($"{_path}, line {_values[name].Line}, {name}: {what}.");

        private void Check(string name, int[]? list, int? count, int least, int most)
        {
            if (list is null || (count is { } expected && list.Length != expected))
            {
                throw Wrong(name, $"has {list?.Length ?? 0} numbers, not {count}");
            }

            if (list.Any(v => v < least || v > most))
            {
                throw Wrong(name, $"{list.First(v => v < least || v > most)} is out of range");
            }
        }

        private string Text(string name) => _values.TryGetValue(name, out var value) ? value.Text : throw new FormatException($"{_path}: {name} is missing.");

        // With braces as brackets the lists are JSON.
        private T Json<T>(string name)
        {
            try
            {
                return JsonSerializer.Deserialize<T>(Text(name).Replace('{', '[').Replace('}', ']')) ?? throw Wrong(name, "is empty");
            }
            catch (JsonException)
            {
                throw Wrong(name, "is no list of whole numbers as expected");
            }
        }

        [GeneratedRegex(@"\G\s*(\w+)\s*=\s*([^;=]*?)\s*;")]
        private static partial Regex Entry();
    }
}

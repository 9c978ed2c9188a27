using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using CsvHelper;
using CsvHelper.Configuration;
using PlateTickets.Process.Recipes;

namespace PlateTickets.Tickets.Recipes;

/// <summary>A row of a file that cannot be taken: its line and the sentence.</summary>
public sealed record CsvTrouble(int Line, string Sentence);

/// <summary>Recipes of a CSV file: settings by material, or what is wrong row by row (then nothing is to be taken).</summary>
public sealed record ImportedRecipes(IReadOnlyDictionary<int, RecipeSettings> ByMaterial, IReadOnlyList<CsvTrouble> Troubles);

/// <summary>
/// Recipes as CSV (RFC 4180): one setting a row, as material, setting, value, unit. The setting is its place in the recipe, such as
/// "FaceExposure.DoseMjPerCm2"; an empty value is "none".
/// </summary>
public static class RecipeCsv
{
    private static readonly (string Suffix, string Unit)[] Units =
        [("MwPerCm2", "mW/cm²"), ("MjPerCm2", "mJ/cm²"), ("MmPerMin", "mm/min"), ("Seconds", "s"), ("AtReference", "s"), ("Percent", "%"), ("Ppi", "ppi"), ("Mm", "mm"), ("TemperatureC", "°C")];

    /// <summary>The released recipe of each material.</summary>
    public static string Export(IEnumerable<(Material Material, RecipeSettings Settings)> recipes)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var csv = new Csv(text))
        {
            csv.Row("material", "setting", "value", "unit");
            foreach (var (material, settings) in recipes)
            {
                foreach (var (path, value) in Leaves(Json(settings), ""))
                {
                    csv.Row(material.Name, path, value?.ToString() ?? "", UnitOf(path));
                }
            }
        }

        return text.ToString();
    }

    /// <summary>Reads a file that <see cref="Export"/> wrote and somebody changed; comma or semicolon between cells. Settings that are left out stay as they are in the released recipe.</summary>
    public static ImportedRecipes Import(TextReader file, IReadOnlyDictionary<int, Material> materials, Func<int, RecipeSettings?> released)
    {
        var troubles = new List<CsvTrouble>();
        var objects = new Dictionary<int, JsonNode>();
        using var csv = new CsvReader(file, new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            DetectDelimiter = true,
            DetectDelimiterValues = [",", ";", "\t"],
            BadDataFound = null,
            MissingFieldFound = null,
            TrimOptions = TrimOptions.Trim,
        });
        if (!csv.Read() || !csv.ReadHeader() || csv.HeaderRecord is not { } header || !new[] { "material", "setting", "value" }.All(header.Contains))
        {
            return new ImportedRecipes(new Dictionary<int, RecipeSettings>(), [new CsvTrouble(1, "The first line must name the columns: material, setting, value, unit.")]);
        }

        while (csv.Read())
        {
            if (Take(csv.GetField("material") ?? "", csv.GetField("setting") ?? "", csv.GetField("value") ?? "", materials, released, objects) is { } wrong)
            {
                troubles.Add(new CsvTrouble(csv.Parser.RawRow, wrong));
            }
        }

        return new ImportedRecipes(
            troubles.Count > 0 ? new Dictionary<int, RecipeSettings>() : objects.ToDictionary(o => o.Key, o => o.Value.Deserialize<RecipeSettings>(JsonSerializerOptions.Default)!),
            troubles);
    }

    private static string? Take(
        string name, string path, string value, IReadOnlyDictionary<int, Material> materials, Func<int, RecipeSettings?> released, Dictionary<int, JsonNode> objects)
    {
        var material = materials.Values.FirstOrDefault(m => m.Name == name || "'" + m.Name == name);
        if (material is null)
        {
            return $"There is no material “{name}”.";
        }

        if (!objects.TryGetValue(material.Id, out var recipe))
        {
            if (released(material.Id) is not { } settings)
            {
                return $"{material.Name} has no released recipe to change.";
            }

            objects[material.Id] = recipe = Json(settings);
        }

        var parts = path.Split('.');
        var parent = parts[..^1].Aggregate((JsonNode?)recipe, (node, part) => (node as JsonObject)?[part]) as JsonObject;
        if (parent is null || !parent.ContainsKey(parts[^1]))
        {
            return $"{material.Name} has no setting “{path}”.";
        }

        if (Value(parent[parts[^1]], path, value) is not (true, var node))
        {
            return $"{material.Name}, {path}: “{value}” is not a number{(UnitOf(path) is { Length: > 0 } unit ? $" in {unit}" : "")} with a point for decimals.";
        }

        parent[parts[^1]] = node;
        return null;
    }

    private static (bool Good, JsonNode? Node) Value(JsonNode? before, string path, string value)
    {
        if (before?.GetValueKind() is JsonValueKind.True or JsonValueKind.False)
        {
            return bool.TryParse(value, out var yes) ? (true, JsonValue.Create(yes)) : (false, null);
        }

        if (value.Length == 0)
        {
            return (before is null, null);
        }

        return path.EndsWith(".Process", StringComparison.Ordinal)
            ? (before!.ToString() == value, JsonNode.Parse(before.ToJsonString()))
            : double.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) ? (true, JsonValue.Create(number)) : (false, null);
    }

    private static JsonNode Json(RecipeSettings settings)
    {
        var node = JsonSerializer.SerializeToNode(settings, JsonSerializerOptions.Default)!.AsObject();
        node.Remove(nameof(RecipeSettings.Route));
        return node;
    }

    private static IEnumerable<(string Path, JsonNode? Value)> Leaves(JsonNode node, string path)
    {
        foreach (var (name, child) in node.AsObject())
        {
            var here = path.Length == 0 ? name : $"{path}.{name}";
            if (child is not JsonObject)
            {
                yield return (here, child);
                continue;
            }

            foreach (var leaf in Leaves(child, here))
            {
                yield return leaf;
            }
        }
    }

    private static string UnitOf(string path) => Units.FirstOrDefault(u => path.EndsWith(u.Suffix, StringComparison.Ordinal)).Unit ?? "";
}

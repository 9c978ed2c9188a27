using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Audit;

/// <summary>Turns entries of the trail into sentences.</summary>
/// <param name="room">Its time zone and the names of its machines and materials.</param>
/// <param name="units">In which lengths are shown.</param>
/// <param name="named">Fields whose values are names of the program's own, such as "WaitingForFiles".</param>
internal sealed partial class AuditText(Room room, LengthSystem units, IReadOnlySet<string> named)
{
    private const int LongestShown = 160;
    private const int MostDifferences = 8;

    /// <summary>"recipe revision" for "RecipeRevision"; "shift" for "ShiftEntry".</summary>
    public static string RecordName(string record) => Words(record.EndsWith("Entry", StringComparison.Ordinal) ? record[..^5] : record);

    /// <summary>"due" for "DueUtc", "width" for "WidthUm".</summary>
    public static string FieldName(string field) => string.Join(", ", field.Split('.').Select(f => Words(UnitEnd().Replace(f, ""))));

    /// <summary>"Ada changed the title of order T… from “a” to “b”."</summary>
    public string Sentence(AuditEntry entry)
    {
        var what = $"{RecordName(entry.Record)} {Key(entry.Key)}";
        return entry.Field switch
        {
            AuditEntry.New => $"{Who(entry)} added {what}.",
            AuditEntry.Deleted => $"{Who(entry)} deleted {what}{(Differences(entry.From, null) is { Length: > 0 } was ? $", which was: {was}" : "")}.",
            ['(', .. var happened, ')'] => $"{Who(entry)} {happened} ({what}){(string.IsNullOrEmpty(entry.To) ? "" : $": {Short(entry.To)}")}.",
            _ when entry.From == AuditEntry.Secret || entry.To == AuditEntry.Secret => $"{Who(entry)} changed the {FieldName(entry.Field)} of {what}. Its value is not kept.",
            _ when Differences(entry.From, entry.To) is { Length: > 0 } differences => $"{Who(entry)} changed the {FieldName(entry.Field)} of {what}: {differences}.",
            _ => Change(entry, what),
        };
    }

    private string Change(AuditEntry entry, string what) => (Value(entry.Field, entry.From), Value(entry.Field, entry.To)) switch
    {
        ("", var to) => $"{Who(entry)} set the {FieldName(entry.Field)} of {what} to {to}.",
        (var from, "") => $"{Who(entry)} cleared the {FieldName(entry.Field)} of {what}, which was {from}.",
        var (from, to) => $"{Who(entry)} changed the {FieldName(entry.Field)} of {what} from {from} to {to}.",
    };

    private static string Who(AuditEntry entry) => entry.By.Length == 0 ? "Somebody" : entry.By;

    // Records that are known by number only get the name that the room has for them now.
    private string Key(string key) => Reference().Replace(
        TrackingNumber.Read(key) is { Number: { } number } ? TrackingNumber.ForPeople(number) : key,
        m => int.Parse(m.Groups[2].ValueSpan, CultureInfo.InvariantCulture) is var id && m.Groups[1].Value == "equipment"
            ? room.EquipmentById(id)?.Name ?? m.Value
            : room.Materials.GetValueOrDefault(id)?.Name ?? m.Value);

    private string Value(string field, string? value)
    {
        if (string.IsNullOrEmpty(value))
        {
            return "";
        }

        if (field.EndsWith("Utc", StringComparison.Ordinal) && DateTime.TryParse(value, CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal, out var utc))
        {
            return SiteClock.MomentWithYear(utc, room.Zone);
        }

        if (named.Contains(field))
        {
            return $"“{Words(value)}”";
        }

        return field.EndsWith("Um", StringComparison.Ordinal) && long.TryParse(value, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var micrometres)
            ? units.Show(micrometres / 1000.0)
            : $"“{Short(value)}”";
    }

    /// <summary>What differs between two records that lie in one field, such as a recipe's settings; empty where they are none.</summary>
    private static string Differences(string? from, string? to)
    {
        if (Leaves(from) is not { } before || (to is not null && Leaves(to) is null))
        {
            return "";
        }

        var after = Leaves(to);
        var different = before.Keys.Union(after?.Keys.AsEnumerable() ?? []).Where(k => before.GetValueOrDefault(k) != after?.GetValueOrDefault(k)).ToList();
        var shown = different.Take(MostDifferences).Select(k => after is null
            ? $"{FieldName(k)} {Short(before[k])}"
            : $"{FieldName(k)} {Short(before.GetValueOrDefault(k) ?? "nothing")} → {Short(after.GetValueOrDefault(k) ?? "nothing")}");
        return string.Join("; ", shown) + (different.Count > MostDifferences ? $"; and {different.Count - MostDifferences} more" : "");
    }

    private static Dictionary<string, string>? Leaves(string? json)
    {
        if (json is not ['{', ..])
        {
            return null;
        }

        try
        {
            using var document = JsonDocument.Parse(json);
            var leaves = new Dictionary<string, string>();
            Collect(document.RootElement, "", leaves);
            return leaves;
        }
        catch (JsonException)
        {
            // A text that only begins like a record, or one that was cut: it is shown as it is.
            return null;
        }
    }

    private static void Collect(JsonElement element, string path, Dictionary<string, string> leaves)
    {
        if (element.ValueKind != JsonValueKind.Object)
        {
            leaves[path] = element.ValueKind == JsonValueKind.Null ? "nothing" : element.ToString();
            return;
        }

        foreach (var part in element.EnumerateObject())
        {
            Collect(part.Value, path.Length == 0 ? part.Name : $"{path}.{part.Name}", leaves);
        }
    }

    private static string Short(string text) => text.Length <= LongestShown ? text : text[..LongestShown] + " …";

    private static string Words(string name) => WordStart().Replace(name, m => " " + m.Value.ToLowerInvariant()).TrimStart().ToLowerInvariant();

    [GeneratedRegex("(Utc|Um)$")]
    private static partial Regex UnitEnd();

    [GeneratedRegex("(?<=[a-z0-9])[A-Z]")]
    private static partial Regex WordStart();

    [GeneratedRegex(@"\b(equipment|material) (\d{1,9})\b")]
    private static partial Regex Reference();
}

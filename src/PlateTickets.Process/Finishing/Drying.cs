using PlateTickets.Process.Recipes;

namespace PlateTickets.Process.Finishing;

/// <summary>
/// Drying drives the absorbed solvent out; 0.5 to 24 h after solvent or aqueous washout (EP 2 112 556). Longer is allowed up to the
/// recipe's limit, shorter is not.
/// </summary>
internal static class Drying
{
    private const double ShortestUsualSeconds = 0.5 * 3600;
    private const double LongestUsualSeconds = 24 * 3600;

    public static StageTime Time(DryingSettings recipe, WashoutProcess process, EquipmentFacts dryer)
    {
        Guard.Above(recipe.Seconds, 0, "The drying time", "s");
        Guard.AtLeast(recipe.RestSeconds, 0, "The rest after drying", "s");
        var rest = recipe.RestSeconds > 0 ? $", then {Durations.ForPeople(recipe.RestSeconds)} rest" : "";
        var unusual = process == WashoutProcess.Solvent && recipe.Seconds is < ShortestUsualSeconds or > LongestUsualSeconds;
        return StageTime.Of(
            Station.Drying, recipe.Handling, recipe.Seconds, $"fixed by the recipe{rest}, {dryer.Name}",
            [
                new("Drying time", Durations.ForPeople(recipe.Seconds)),
                new("Temperature", $"{Numbers.ForPeople(recipe.TemperatureC)} °C"),
                new("At most", Durations.ForPeople(recipe.LongestSeconds)),
                .. Rest(recipe),
            ],
            "time = the recipe's time; longer up to its limit, never shorter",
            [new("Drying time", Durations.ForPeople(recipe.Seconds), "recipe"), new("At most", Durations.ForPeople(recipe.LongestSeconds), "recipe")],
            rest: recipe.RestSeconds,
            flags: unusual
                ? [$"A drying time of {Durations.ForPeople(recipe.Seconds)} is outside the usual half hour to 24 hours: ask the lead."]
                : []);
    }

    private static IEnumerable<Setting> Rest(DryingSettings recipe) =>
        recipe.RestSeconds > 0 ? [new Setting("Rest after", Durations.ForPeople(recipe.RestSeconds))] : [];
}

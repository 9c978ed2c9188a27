using PlateTickets.Process.Recipes;

namespace PlateTickets.Process.Finishing;

/// <summary>Post exposure (UV-A) and light finishing (UV-C): both at once take the longer time, one after the other the sum.</summary>
internal static class PostFinish
{
    public static StageTime Time(PostFinishSettings recipe, EquipmentFacts finisher)
    {
        var post = Guard.AtLeast(recipe.PostExposureSeconds, 0, "The post exposure time", "s");
        var light = Guard.AtLeast(recipe.LightFinishingSeconds, 0, "The light finishing time", "s");
        var seconds = recipe.AtOnce ? Math.Max(post, light) : post + light;
        var how = recipe.AtOnce
            ? $"the longer of {Durations.ForPeople(post)} post exposure and {Durations.ForPeople(light)} light finishing, at once, {finisher.Name}"
            : $"{Durations.ForPeople(post)} post exposure + {Durations.ForPeople(light)} light finishing, {finisher.Name}";
        return StageTime.Of(
            Station.PostFinish, recipe.Handling, Guard.Above(seconds, 0, "The post-finish time", "s"), how,
            [new("Post exposure (UV-A)", Durations.ForPeople(post)), new("Light finishing (UV-C)", Durations.ForPeople(light))],
            recipe.AtOnce ? "time = the longer of the two lamps" : "time = post exposure + light finishing",
            [new("Post exposure", Durations.ForPeople(post), "recipe"), new("Light finishing", Durations.ForPeople(light), "recipe")]);
    }
}

using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Process.Units;

namespace PlateTickets.Tickets.Recipes;

/// <summary>One setting of a recipe in words.</summary>
public sealed record RecipeLine(Station Station, string Name, string Value);

/// <summary>One setting in two revisions; a value is empty where a revision does not have it.</summary>
public sealed record RecipeDifference(Station Station, string Name, string Before, string After)
{
    public bool Changed => Before != After;
}

/// <summary>Recipes line by line, to read and to compare.</summary>
public static class RecipeLines
{
    public static IReadOnlyList<RecipeLine> Of(RecipeSettings r, LengthSystem units = LengthSystem.Metric)
    {
        var lines = new List<RecipeLine>();
        Add(Station.BackExposure, r.BackExposure.Handling, ("Exposure time", $"{Numbers.ForPeople(r.BackExposure.SecondsAtReference)} s"),
            ("at irradiance", $"{Numbers.ForPeople(r.BackExposure.ReferenceIrradianceMwPerCm2, 2)} mW/cm²"), ("Floor", units.Show(r.BackExposure.FloorMm, 3)));
        Add(Station.Imaging, r.Imaging.Handling, ("Resolution", $"{Numbers.ForPeople(r.Imaging.ResolutionPpi, 0)} ppi"), ("Laser power", $"{Numbers.ForPeople(r.Imaging.LaserPowerPercent)} %"));
        Add(Station.FaceExposure, r.FaceExposure.Handling, ("Dose", $"{Numbers.ForPeople(r.FaceExposure.DoseMjPerCm2, 0)} mJ/cm²"));
        Add(Station.Washout, r.Washout.Handling,
            ("Transport speed", r.Washout.TransportMmPerMin is { } speed ? units.Speed(speed) : ""),
            ("Washout time", r.Washout.BatchSeconds is { } batch ? Durations.ForPeople(batch) : ""),
            ("Brush height", r.Washout.BrushHeightMm is { } brush ? units.Show(brush, 2) : ""),
            ("Temperature", $"{Numbers.ForPeople(r.Washout.TemperatureC)} °C"));
        if (r.Drying is { } d)
        {
            Add(Station.Drying, d.Handling, ("Drying time", Durations.ForPeople(d.Seconds)), ("At most", Durations.ForPeople(d.LongestSeconds)),
                ("Temperature", $"{Numbers.ForPeople(d.TemperatureC)} °C"), ("Rest after", Durations.ForPeople(d.RestSeconds)));
        }

        Add(Station.PostFinish, r.PostFinish.Handling, ("Post exposure (UV-A)", Durations.ForPeople(r.PostFinish.PostExposureSeconds)),
            ("Light finishing (UV-C)", Durations.ForPeople(r.PostFinish.LightFinishingSeconds)), ("Both lamps", r.PostFinish.AtOnce ? "at once" : "one after the other"));
        if (r.Cutting is { } cutting)
        {
            Add(Station.Cutting, cutting.Handling, ("Time for each plate", Durations.ForPeople(cutting.SecondsPerPlate)));
        }

        AddReadings(r, lines, units);
        foreach (var station in r.Route)
        {
            if (CheckLists.MustTick(station, r) is var must and not CheckPoint.None)
            {
                lines.Add(new(station, "Must be ticked", string.Join(", ", CheckLists.For(station, r).Where(p => must.HasFlag(p)).Select(p => p.Title().ToLowerInvariant()))));
            }
        }

        return [.. lines.OrderBy(l => l.Station)];

        void Add(Station station, Handling handling, params (string Name, string Value)[] values)
        {
            lines.AddRange(values.Where(v => v.Value.Length > 0).Select(v => new RecipeLine(station, v.Name, v.Value)));
            lines.Add(new(station, "Load, unload", $"{Durations.ForPeople(handling.LoadSeconds)}, {Durations.ForPeople(handling.UnloadSeconds)}"));
            if (handling.LongestWaitAfterSeconds is { } wait)
            {
                lines.Add(new(station, "Next stage within", Durations.ForPeople(wait)));
            }
        }
    }

    private static void AddReadings(RecipeSettings r, List<RecipeLine> lines, LengthSystem units)
    {
        lines.Add(new(Station.BackExposure, "Floor within ±", units.Show(r.Limits.FloorMm, 3)));
        lines.Add(new(Station.BackExposure, "Lamps at least", $"{Numbers.ForPeople(r.Limits.LampsPercent)} % of the reference"));
        lines.Add(new(Station.Washout, "Relief within ±", units.Show(r.Limits.ReliefMm, 3)));
        lines.Add(new(Station.PostFinish, "Total thickness within ±", units.Show(r.Limits.ThicknessMm, 3)));
    }

    /// <summary>Every setting that either revision has, in the order of the stations.</summary>
    public static IReadOnlyList<RecipeDifference> Compare(RecipeSettings before, RecipeSettings after, LengthSystem units = LengthSystem.Metric)
    {
        var (a, b) = (Of(before, units).ToDictionary(l => (l.Station, l.Name), l => l.Value), Of(after, units).ToDictionary(l => (l.Station, l.Name), l => l.Value));
        return [.. a.Keys.Union(b.Keys).OrderBy(k => k.Station)
            .Select(k => new RecipeDifference(k.Station, k.Name, a.GetValueOrDefault(k, ""), b.GetValueOrDefault(k, "")))];
    }
}

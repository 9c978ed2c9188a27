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

        return lines;

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

    /// <summary>Every setting that either revision has, in the order of the stations.</summary>
    public static IReadOnlyList<RecipeDifference> Compare(RecipeSettings before, RecipeSettings after, LengthSystem units = LengthSystem.Metric)
    {
        var (a, b) = (Of(before, units).ToDictionary(l => (l.Station, l.Name), l => l.Value), Of(after, units).ToDictionary(l => (l.Station, l.Name), l => l.Value));
        return [.. a.Keys.Union(b.Keys).OrderBy(k => k.Station)
            .Select(k => new RecipeDifference(k.Station, k.Name, a.GetValueOrDefault(k, ""), b.GetValueOrDefault(k, "")))];
    }
}

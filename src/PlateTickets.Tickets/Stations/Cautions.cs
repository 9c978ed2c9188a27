using PlateTickets.Process;
using PlateTickets.Process.Units;

namespace PlateTickets.Tickets.Stations;

/// <summary>The usual cautions of each station in words, each with the code of its ISO 7010 sign. The plant's own safety texts come first.</summary>
public static class Cautions
{
    /// <summary>Stands at the end of every list of cautions.</summary>
    public const string Closing =
        "These are the usual cautions, not all of them. Follow the local codes, the makers' instructions and the safety data sheets; service behind covers is for trained and licensed people.";

    public static IReadOnlyList<string> For(Station station, WashoutProcess process) => station switch
    {
        Station.BackExposure or Station.FaceExposure =>
        [
            "UV-A light harms eyes and skin: lid closed while the lamps burn, never defeat its switch (W027; eye protection M004).",
            "Lamps and glass stay hot after a run (W017). Sheet edges cut: wear gloves (M009).",
        ],
        Station.Imaging =>
        [
            "Laser inside: never open or bridge the interlocked cover (W004).",
            "Drum and clamps move: hands off until it stands still (W024). Sheet edges cut: wear gloves (M009).",
        ],
        Station.Washout => process switch
        {
            WashoutProcess.Solvent =>
            [
                "Solvent: gloves (M009), eye protection (M004), extraction on; breathe no vapour (M017 where the data sheet asks for it).",
                "Vapours burn: no flame, no spark (W021, P003). Brushes and rollers draw in: no loose sleeves (W024).",
            ],
            WashoutProcess.Water =>
            [
                "Warm water with detergent: gloves (M009), eye protection (M004); wet floors are slippery (W011).",
                "Brushes and rollers draw in: no loose sleeves, cover closed (W024).",
            ],
            _ =>
            [
                "Hot roller and hot sheet: heat-resistant gloves (W017, M009). Extraction on: the warm polymer gives off vapours.",
                "Rollers draw in: no loose sleeves, cover closed (W024).",
            ],
        },
        Station.Drying =>
        [
            "Hot air and hot drawers (W017): gloves (M009).",
            process == WashoutProcess.Solvent
                ? "Solvent vapours leave the sheets: extraction on, no flame, no spark (W021, P003)."
                : "Lift drawers with both hands: they pinch (W024).",
        ],
        Station.PostFinish =>
        [
            "UV-C light burns eyes and skin within seconds: drawer closed while the lamps burn, never defeat its switch (W027; M004).",
            "UV-C lamps make ozone: extraction on, let it clear before opening.",
        ],
        Station.Cutting =>
        [
            "Knives and plate edges cut: gloves (M009), hands behind the ruler, blade guarded when it lies down.",
            "A power cutter closes with force: hands out of it, guard in place (W024).",
        ],
        _ => throw new ArgumentOutOfRangeException(nameof(station), station, "There is no such station."),
    };

    /// <summary>The reading that a station writes down; empty where there is none.</summary>
    public static string ReadingFor(Station station, LengthSystem units = LengthSystem.Metric) => station switch
    {
        Station.BackExposure => $"Floor, {units.Unit()}",
        Station.FaceExposure => "Lamps, mW/cm²",
        Station.Washout => $"Relief, {units.Unit()}",
        Station.Drying => "Drawer no.",
        Station.PostFinish => $"Thickness, {units.Unit()}",
        _ => "",
    };
}

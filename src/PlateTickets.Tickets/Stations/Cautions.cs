using PlateTickets.Process;
using PlateTickets.Process.Units;

namespace PlateTickets.Tickets.Stations;

/// <summary>The usual cautions of each station in words, each with the code of its ISO 7010 sign. The plant's own safety texts come first.</summary>
public static class Cautions
{
    /// <summary>Stands at the end of every list of cautions.</summary>
    public const string Closing =
        "These are the usual cautions, not all of them. Follow the local codes, the makers' instructions and the safety data sheets; service behind covers is for trained and licensed people.";

    public static IReadOnlyList<Caution> For(Station station, WashoutProcess process) => station switch
    {
        Station.BackExposure or Station.FaceExposure =>
        [
            new("UV-A light harms eyes and skin: lid closed while the lamps burn, never defeat its switch.", [SafetySign.OpticalRadiation, SafetySign.EyeProtection]),
            new("Lamps and glass stay hot after a run. Sheet edges cut: wear gloves.", [SafetySign.Hot, SafetySign.Gloves]),
        ],
        Station.Imaging =>
        [
            new("Laser inside: never open or bridge the interlocked cover.", [SafetySign.Laser]),
            new("Drum and clamps move: hands off until it stands still. Sheet edges cut: wear gloves.", [SafetySign.Crushing, SafetySign.Gloves]),
        ],
        Station.Washout => process switch
        {
            WashoutProcess.Solvent =>
            [
                new("Solvent: gloves, eye protection, extraction on; breathe no vapour, and wear a respirator where the data sheet asks for it.", [SafetySign.Gloves, SafetySign.EyeProtection, SafetySign.Respirator]),
                new("Vapours burn: no flame, no spark.", [SafetySign.Flammable, SafetySign.NoFlame]),
                new("Brushes and rollers draw in: no loose sleeves.", [SafetySign.Crushing]),
            ],
            WashoutProcess.Water =>
            [
                new("Warm water with detergent: gloves, eye protection; wet floors are slippery.", [SafetySign.Gloves, SafetySign.EyeProtection, SafetySign.Slippery]),
                new("Brushes and rollers draw in: no loose sleeves, cover closed.", [SafetySign.Crushing]),
            ],
            _ =>
            [
                new("Hot roller and hot sheet: heat-resistant gloves. Extraction on: the warm polymer gives off vapours.", [SafetySign.Hot, SafetySign.Gloves]),
                new("Rollers draw in: no loose sleeves, cover closed.", [SafetySign.Crushing]),
            ],
        },
        Station.Drying =>
        [
            new("Hot air and hot drawers: gloves.", [SafetySign.Hot, SafetySign.Gloves]),
            process == WashoutProcess.Solvent
                ? new("Solvent vapours leave the sheets: extraction on, no flame, no spark.", [SafetySign.Flammable, SafetySign.NoFlame])
                : new("Lift drawers with both hands: they pinch.", [SafetySign.Crushing]),
        ],
        Station.PostFinish =>
        [
            new("UV-C light burns eyes and skin within seconds: drawer closed while the lamps burn, never defeat its switch.", [SafetySign.OpticalRadiation, SafetySign.EyeProtection]),
            new("UV-C lamps make ozone: extraction on, let it clear before opening.", []),
        ],
        Station.Cutting =>
        [
            new("Knives and plate edges cut: gloves, hands behind the ruler, blade guarded when it lies down.", [SafetySign.Gloves]),
            new("A power cutter closes with force: hands out of it, guard in place.", [SafetySign.Crushing]),
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

namespace PlateTickets.Travelers.Tests;

/// <summary>Invented sheets to print.</summary>
internal static class Samples
{
    private static readonly (string Name, string? Rgb)[] Inks =
        [("Cyan", "#00a0d8"), ("Magenta", "#d0107c"), ("Yellow", "#f5dc00"), ("Black", "#1c1c1c"), ("Harvest Orange", "#ec7a16"), ("Varnish", null)];

    public static TravelerContent Usual { get; } = Make(plates: 4);

    public static TravelerContent LongTexts { get; } = Make(plates: 1, reprint: 2) with
    {
        Material = "Aster 170 with an uncommonly long name for a plate material · 1.70 mm · solvent",
        Recipe = "Aster 170 with an uncommonly long name for a plate material, revision 114",
        SetPosition = "Sheet 11 of 12 of ticket T2K3 M9Q4 6; Sheet 2 of 3 of ticket T7B2 X0V8 D; Sheet 1 of 2 of ticket T1N4 R5S6 E",
        Tickets =
        [
            new("T2K3 M9Q4 6", "The Extraordinarily Long Named Cooperative of Bramblewood Bakers and Confectioners of the Eastern Valleys",
                "Donaudampfschifffahrtselektrizitätenhauptbetriebswerkbauunterbeamtengesellschaftsetikett rye loaf bag 500 g, left and right side with window",
                "Press 1, wide film", "Thu 26 Nov, 14:00"),
        ],
        Flags =
        [
            "Frame 2: the reading of the face lamps is of 1 Nov 2026, older than 7 d. Read them again; the time is computed with the old value.",
            "Frame 2 has no reading of its back lamps: the recipe's time is used as it is. Read the lamps and enter the value.",
        ],
    };

    public static TravelerContent ThreeTickets { get; } = Make(plates: 14, tickets: 3);

    public static TravelerContent SixtyPlates { get; } = Make(plates: 60, tickets: 4);

    private static TravelerContent Make(int plates, int tickets = 1, int reprint = 0)
    {
        var numbers = Enumerable.Range(0, tickets).Select(t => $"T2K3 M9Q{t} 6").ToList();
        var columns = Math.Max(2, (int)Math.Ceiling(Math.Sqrt(plates)));
        var (width, length) = (880.0 / columns, 1150.0 / Math.Ceiling(plates / (double)columns));
        return new TravelerContent
        {
            SheetNumber = "S2K3M9Q4B",
            SheetNumberForPeople = "S2K3 M9Q4 B",
            SiteName = "Harbour Lane plate room",
            Material = "Aster 170 · 1.70 mm · solvent",
            SheetSize = "900 × 1200 mm",
            Recipe = "Aster 170, revision 2",
            Due = "Thu 26 Nov 2026, 14:00",
            PrintedAt = "Wed 25 Nov 2026, 08:12 (Europe/Berlin)",
            ReprintNumber = reprint,
            SetPosition = "",
            Tickets = [.. numbers.Select((n, i) => new TravelerTicket(n, "Northmere Dairy", $"Butter foil 250 g, version {i + 1}", "Press 1, wide film", "Thu 26 Nov, 14:00"))],
            Layout = new TravelerLayout(900, 1200, "900 mm along the drum axis", "1200 mm around the drum", [.. Enumerable.Range(0, plates).Select(i => new TravelerPlate(
                $"{i + 1}", Inks[i % Inks.Length].Name, Inks[i % Inks.Length].Rgb, numbers[i % tickets], $"{width - 10:0.0} × {length - 10:0.0} mm", i % 7 == 3,
                10 + (i % columns * width), 15 + (i / columns * length), width - 10, length - 10))]),
            Stock = "Full sheet, 900 × 1200 mm, lot L-2331. First cut off the remnant of 310 × 1200 mm at 590 mm along the drum axis, mark it R12 and put it back in the dark.",
            Cuts = "In mm from the corner of the drawing at the top left, x along the drum axis, y around the drum: " +
                string.Join("; ", Enumerable.Range(1, plates - 1).Select(i => $"{i}. x {i * 40}, y 0 to 1200")) + ". Then trim each plate to its size.",
            Stages =
            [
                Stage("Back exposure", "Frame 1", [("Exposure time", "1 min 41 s"), ("Floor", "1.19 mm")], "1 min 41 s", "1 min 41 s = 100 s × 15 / 14.9 mW/cm², Frame 1, read 22 Nov 2026", "Floor, mm", reprint > 0 ? "Done Wed 25 Nov, 08:30, Ada" : null),
                Stage("Imaging", "Imager B", [("Resolution", "2540 ppi"), ("Laser power", "82 %")], "10 min 21 s", "10 min 21 s = 870 mm along the axis / 84 mm/min (2540 ppi, 24 channels, 350 rev/min), Imager B", "", null),
                Stage("Face exposure", "Frame 2", [("Exposure time", "12 min 20 s"), ("Dose", "10 800 mJ/cm²")], "12 min 20 s", "12 min 20 s = 10 800 mJ/cm² / 14.6 mW/cm², Frame 2, read 24 Nov 2026", "Lamps, mW/cm²", null),
                Stage("Washout", "Line washer", [("Transport speed", "150 mm/min"), ("Brush height", "0.4 mm"), ("Temperature", "32 °C")], "20 min", "20 min = (1200 mm sheet + 1800 mm line) / 150 mm/min, Line washer", "Relief, mm", null),
                Stage("Drying", "Dryer (8 drawers)", [("Drying time", "1 h 30 min"), ("Temperature", "60 °C"), ("At most", "3 h"), ("Rest after", "30 min")], "1 h 30 min", "1 h 30 min = fixed by the recipe, then 30 min rest, Dryer", "Drawer no.", null),
                Stage("Post-finish", "Finisher", [("Post exposure (UV-A)", "8 min"), ("Light finishing (UV-C)", "9 min")], "17 min", "17 min = 8 min post exposure + 9 min light finishing, Finisher", "Thickness, mm", null),
            ],
            ClosingCautions = ["These are the usual cautions, not all of them. Follow the local codes, the makers' instructions and the safety data sheets; service behind covers is for trained and licensed people."],
            Flags = [],
        };
    }

    private static TravelerStage Stage(
        string title, string equipment, (string, string)[] settings, string time, string why, string reading, string? done) => new(
        title, equipment, settings, time, why, "Wed 08:12 – 08:24", "Thu 26 Nov, 10:53", reading,
        [
            "Solvent: gloves (M009), eye protection (M004), extraction on; breathe no vapour (M017 where the data sheet asks for it).",
            "Vapours burn: no flame, no spark (W021, P003). Brushes and rollers draw in: no loose sleeves (W024).",
        ],
        done);
}

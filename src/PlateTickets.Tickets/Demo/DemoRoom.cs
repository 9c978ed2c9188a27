using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stock;

namespace PlateTickets.Tickets.Demo;

/// <summary>An invented plate room: machines, materials, presses and customers that exist nowhere. Settings are common practice or from memory, to be edited.</summary>
internal static class DemoRoom
{
    private const string Lead = "Demo lead";

    public static Equipment[] Equipment() =>
    [
        Frame("Frame 1", "frame-1"),
        Frame("Frame 2", "frame-2"),
        new() { Name = "Imager A", Slug = "imager-a", Kind = EquipmentKind.Single, Serves = [Station.Imaging], DrumRpm = 350, LaserChannels = 16 },
        new() { Name = "Imager B", Slug = "imager-b", Kind = EquipmentKind.Single, Serves = [Station.Imaging], DrumRpm = 350, LaserChannels = 24 },
        new()
        {
            Name = "Line washer", Slug = "line-washer", Kind = EquipmentKind.Line, Serves = [Station.Washout], Process = WashoutProcess.Solvent,
            ChangeoverSeconds = 1200, LineLengthMm = 1800, LineGapMm = 100,
        },
        new() { Name = "Water washer", Slug = "water-washer", Kind = EquipmentKind.Single, Serves = [Station.Washout], Process = WashoutProcess.Water },
        new() { Name = "Thermal unit", Slug = "thermal-unit", Kind = EquipmentKind.Single, Serves = [Station.Washout], Process = WashoutProcess.Thermal },
        new() { Name = "Dryer", Slug = "dryer", Kind = EquipmentKind.Slots, Slots = 8, Serves = [Station.Drying] },
        new() { Name = "Finisher", Slug = "finisher", Kind = EquipmentKind.Single, Serves = [Station.PostFinish] },
        new() { Name = "Cutting table", Slug = "cutting-table", Kind = EquipmentKind.Single, Serves = [Station.Cutting] },
    ];

    /// <summary>A frame's readings as they were days ago: falling slowly, as lamps do.</summary>
    public static IEnumerable<LampReadingEntry> Readings(int equipmentId, double back, double face, double daysAgo, DateTime nowUtc)
    {
        for (var week = 9; week >= 0; week--)
        {
            var at = nowUtc.AddDays(-daysAgo - (7 * week));
            yield return new() { EquipmentId = equipmentId, Bank = LampBank.Back, IrradianceMwPerCm2 = Math.Round(back + (0.15 * week) + Scatter(week), 2), ReadUtc = at, ReadBy = Lead };
            yield return new() { EquipmentId = equipmentId, Bank = LampBank.Face, IrradianceMwPerCm2 = Math.Round(face + (0.2 * week) + Scatter(week + 3), 2), ReadUtc = at, ReadBy = Lead };
        }
    }

    /// <summary>An invented step test of the first material on the first frame.</summary>
    public static StepTestEntry StepTest(Material material, int equipmentId, DateTime nowUtc) => new()
    {
        MaterialId = material.Id,
        EquipmentId = equipmentId,
        Lot = "L-2231",
        IrradianceMwPerCm2 = 15,
        MadeUtc = nowUtc.AddDays(-76),
        MadeBy = Lead,
        Steps = [.. new[] { (40, 0.72), (60, 0.94), (80, 1.06), (100, 1.19), (120, 1.27), (140, 1.37) }.Select(s => new StepTestStep { Seconds = s.Item1, FloorMm = s.Item2 })],
    };

    // Readings scatter; the newest one does not, so that the demo's times are the round ones of its recipes.
    private static double Scatter(int week) => week is 0 or 3 ? 0 : 0.08 * Math.Sin(week * 2.3);

    public static Material[] Materials() =>
    [
        new() { Name = "Aster 170", ThicknessUm = 1700, BaseUm = 125, Process = WashoutProcess.Solvent },
        new() { Name = "Birch 114", ThicknessUm = 1140, BaseUm = 175, Process = WashoutProcess.Water },
        new() { Name = "Corvid 284", ThicknessUm = 2840, BaseUm = 175, Process = WashoutProcess.Thermal },
    ];

    public static RecipeSettings Settings(WashoutProcess process) => Plain(process) with
    {
        MustTick = process == WashoutProcess.Solvent
            ? CheckPoint.CoverFilmOff | CheckPoint.ClampsClosed | CheckPoint.PlainPunch | CheckPoint.PinBarLocked
            : CheckPoint.CoverFilmOff | CheckPoint.ClampsClosed,
    };

    private static RecipeSettings Plain(WashoutProcess process) => process switch
    {
        WashoutProcess.Solvent => new(
            new(new(90, 60, LongestWaitAfterSeconds: 2 * 86_400), SecondsAtReference: 100, ReferenceIrradianceMwPerCm2: 15, FloorMm: 1.19),
            new(new(180, 120), ResolutionPpi: 2540, LaserPowerPercent: 82),
            new(new(120, 60), DoseMjPerCm2: 10_800),
            new(new(90, 60, LongestWaitAfterSeconds: 3600), process, TransportMmPerMin: 150, BatchSeconds: null, BrushHeightMm: 0.4, TemperatureC: 32),
            new(new(60, 60), Seconds: 5400, LongestSeconds: 10_800, TemperatureC: 60, RestSeconds: 1800),
            new(new(60, 60), PostExposureSeconds: 480, LightFinishingSeconds: 540, AtOnce: false),
            new(new(60, 60), SecondsPerPlate: 120)),
        WashoutProcess.Water => new(
            new(new(90, 60, LongestWaitAfterSeconds: 2 * 86_400), SecondsAtReference: 42, ReferenceIrradianceMwPerCm2: 15, FloorMm: 0.64),
            new(new(180, 120), ResolutionPpi: 2540, LaserPowerPercent: 78),
            new(new(120, 60), DoseMjPerCm2: 8_400),
            new(new(120, 90, LongestWaitAfterSeconds: 3600), process, TransportMmPerMin: null, BatchSeconds: 1080, BrushHeightMm: 0.3, TemperatureC: 45),
            new(new(60, 60), Seconds: 1500, LongestSeconds: 5400, TemperatureC: 60, RestSeconds: 600),
            new(new(60, 60), PostExposureSeconds: 360, LightFinishingSeconds: 300, AtOnce: true),
            new(new(60, 60), SecondsPerPlate: 90)),
        _ => new(
            new(new(90, 60, LongestWaitAfterSeconds: 2 * 86_400), SecondsAtReference: 185, ReferenceIrradianceMwPerCm2: 15, FloorMm: 2.26),
            new(new(240, 150), ResolutionPpi: 2000, LaserPowerPercent: 85),
            new(new(150, 60), DoseMjPerCm2: 13_500),
            new(new(150, 120), process, TransportMmPerMin: null, BatchSeconds: 1260, BrushHeightMm: null, TemperatureC: 163),
            null,
            new(new(60, 60), PostExposureSeconds: 600, LightFinishingSeconds: 480, AtOnce: false),
            new(new(60, 60), SecondsPerPlate: 150)),
    };

    /// <summary>Two revisions of each recipe: the first is withdrawn.</summary>
    public static IEnumerable<RecipeRevision> Revisions(Material material, DateTime nowUtc)
    {
        var settings = Settings(material.Process);
        yield return new()
        {
            Material = material,
            Number = 1,
            State = RecipeState.Withdrawn,
            ReleasedUtc = nowUtc.AddDays(-190),
            ReleasedBy = Lead,
            Note = "First recipe, from the maker's range",
            Settings = settings with { FaceExposure = settings.FaceExposure with { DoseMjPerCm2 = settings.FaceExposure.DoseMjPerCm2 * 0.9 } },
        };
        yield return new()
        {
            Material = material,
            Number = 2,
            State = RecipeState.Released,
            ReleasedUtc = nowUtc.AddDays(-75),
            ReleasedBy = Lead,
            Settings = settings,
            Note = "More face exposure: fine highlight dots were lost",
        };
    }

    public static IEnumerable<StockSize> StockSizes(Material material, DateTime nowUtc)
    {
        (int W, int L)[] sizes = material.Process switch
        {
            WashoutProcess.Solvent => [(900, 1200), (600, 900)],
            WashoutProcess.Water => [(900, 1200), (640, 760)],
            _ => [(1060, 1520), (900, 1200)],
        };
        return sizes.Select((s, i) => new StockSize
        {
            Material = material,
            WidthUm = s.W * 1000,
            LengthUm = s.L * 1000,
            LeastSheets = 10,
            Lots = [.. Lots(material.Process, i, nowUtc)],
        });
    }

    // Two deliveries of each size: the older one expires in some weeks and is used first.
    private static IEnumerable<StockLot> Lots(WashoutProcess process, int size, DateTime nowUtc)
    {
        var today = DateOnly.FromDateTime(nowUtc);
        var number = 2231 + (100 * (int)process) + (10 * size);
        yield return new() { Lot = $"L-{number}", Sheets = 30, ReceivedUtc = nowUtc.AddDays(-80), ExpiresOn = today.AddDays(24 + (9 * size)) };
        yield return new() { Lot = $"L-{number + 3}", Sheets = size == 0 ? 40 : 12, ReceivedUtc = nowUtc.AddDays(-12), ExpiresOn = today.AddDays(210) };
    }

    public static Press[] Presses(Material[] materials) =>
    [
        new() { Name = "Press 1, wide film", UsualMaterial = materials[0], Cylinders = [New("Sleeve 400", 400), New("Sleeve 480", 480), New("Sleeve 560", 560)] },
        new() { Name = "Press 2, labels", UsualMaterial = materials[1], Cylinders = [New("96 teeth, 1/8 in", 304.8), New("120 teeth, 1/8 in", 381)] },
        new() { Name = "Press 3, board", UsualMaterial = materials[2], Cylinders = [New("Cylinder 1000", 1000), New("Cylinder 720", 720)] },
    ];

    public static string[] Customers { get; } =
    [
        "Bramblewood Bakery", "Kestrel Point Coffee", "Old Quarry Spring Water", "Marigold & Finch Tea", "Northmere Dairy", "Pillow Fort Snacks",
        "Saltgrass Seafood", "Tin Lantern Pet Food", "Juniper Row Soaps", "Copper Ladle Preserves",
    ];

    public static string[] Titles { get; } =
    [
        "Rye loaf bag 500 g", "House roast 1 kg, front", "Still 1.5 l, 6-pack wrap", "Evening blend carton", "Butter foil 250 g", "Sea salt crisps 150 g",
        "Cod fillets sleeve", "Puppy dry food 3 kg", "Lavender bar label", "Plum jam label 340 g", "Oat biscuits tray", "Decaf pouch 250 g", "Spring water label 0.5 l",
        "Green tea tin band", "Yoghurt lid 150 g", "Peanut curls 90 g", "Shrimp bag 400 g", "Cat sticks 60 g", "Olive soap box", "Chutney label 200 g",
    ];

    private static Cylinder New(string name, double repeatMm) => new() { Name = name, RepeatUm = (int)Math.Round(repeatMm * 1000) };

    private static Equipment Frame(string name, string slug) =>
        new() { Name = name, Slug = slug, Kind = EquipmentKind.Single, Serves = [Station.BackExposure, Station.FaceExposure] };
}

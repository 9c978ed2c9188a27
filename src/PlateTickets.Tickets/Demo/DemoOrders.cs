using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using PlateTickets.Process.Distortion;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Demo;

/// <summary>An invented order and when it comes in.</summary>
internal sealed record DemoOrder(DateTime EnteredUtc, NewOrder Order, IReadOnlyList<ReadSeparation> Separations);

/// <summary>Invented orders; the same for the same seed.</summary>
internal static class DemoOrders
{
    private static readonly string[] Process = ["Cyan", "Magenta", "Yellow", "Black"];
    private static readonly string[] Spots = ["Harvest Orange", "Deep Violet", "Leaf Green", "White", "Brand Red 2"];

    /// <summary>A first part that is done by now, a middle part that is on its way, and a busy last hour: sheets stand at every station.</summary>
    public static List<DemoOrder> Make(Room room, IReadOnlyList<Customer> customers, int count, DateTime nowUtc, int seed)
    {
        var random = new Random(seed);
        var (early, middle) = (count * 2 / 5, count * 3 / 5);
        return [.. Enumerable.Range(0, count).Select(i =>
        {
            var at = i + random.NextDouble();
            var entered = i < early
                ? Between(nowUtc.AddHours(-36), nowUtc.AddHours(-14), at / early)
                : i < middle
                    ? Between(nowUtc.AddHours(-6), nowUtc.AddHours(-2), (at - early) / (middle - early))
                    : Between(nowUtc.AddMinutes(-75), nowUtc.AddMinutes(-2), (at - middle) / (count - middle));
            return Make(room, customers, i, entered, random);
        })];
    }

    private static DateTime Between(DateTime from, DateTime to, double share) => from + ((to - from) * share);

    private static DemoOrder Make(Room room, IReadOnlyList<Customer> customers, int index, DateTime entered, Random random)
    {
        var press = room.Presses[index % 5 < 3 ? 0 : index % 5 == 3 ? 1 : 2];
        var cylinder = press.Cylinders[random.Next(press.Cylinders.Count)];
        var material = room.Materials[press.UsualMaterialId];
        // Every seventh customer is in a hurry: somebody must be late for the board to show it.
        var hours = index % 7 == 4 ? 2.4 + random.NextDouble() : 7 + (26 * random.NextDouble());
        var due = room.WorkingBetween(entered, entered.AddDays(5)).LatestFinish(entered.AddHours(hours), TimeSpan.FromMinutes(30))
            ?? entered.AddHours(30);
        var order = new NewOrder
        {
            CustomerId = customers[index % customers.Count].Id,
            Title = DemoRoom.Titles[index % DemoRoom.Titles.Length],
            PressId = press.Id,
            CylinderId = cylinder.Id,
            DueUtc = WholeQuarter(due),
            Copies = index % 11 == 5 ? 2 : 1,
        };
        var flat = PlateDistortion.FlatLengthMm(cylinder.RepeatUm / 1000.0, material.ThicknessUm / 1000.0, material.BaseUm / 1000.0);
        var around = cylinder.RepeatUm > 700_000 ? flat / 2 : flat;
        var across = 180 + (10 * random.Next(press.Cylinders.Count * 8));
        var colours = Process.Skip(index % 7 == 3 ? 2 : 0).Concat(Spots.OrderBy(_ => random.Next()).Take(random.Next(3)));
        return new DemoOrder(entered, order, [.. colours.Select(c => Read(c, index, across, around))]);
    }

    private static DateTime WholeQuarter(DateTime at) => at.AddTicks(-(at.Ticks % TimeSpan.FromMinutes(15).Ticks));

    private static ReadSeparation Read(string colour, int index, double acrossMm, double aroundMm)
    {
        const double pixelsPerMm = 100;
        var name = string.Create(CultureInfo.InvariantCulture, $"demo-{index + 1:00}({colour}).tif");
        var facts = new SeparationFacts(
            name, (int)Math.Round(acrossMm * pixelsPerMm), (int)Math.Round(aroundMm * pixelsPerMm), pixelsPerMm, pixelsPerMm, acrossMm, aroundMm,
            colour, ColourSource.FileName, "CCITT G4", InkIsZero: true);
        var hash = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(name)));
        facts = facts with { Image = DemoImage.Of(hash, acrossMm, aroundMm) };
        return new ReadSeparation(facts, hash, facts.WidthPixels * (long)facts.HeightPixels / 160);
    }
}

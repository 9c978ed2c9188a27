using PlateTickets.Web.Timeline;

namespace PlateTickets.Web.Tests.Timeline;

public class LanesTests
{
    private static readonly DateTime Midnight = new(2026, 11, 25, 0, 0, 0, DateTimeKind.Utc);

    [Fact]
    public void OneAfterAnother_ShareALane_EvenWhenTheyTouch() => Assert.Equal([0, 0, 0], Assign((0, 10), (10, 20), (25, 30)));

    [Fact]
    public void Overlapping_LieBeneathEachOther_AndAFreedLaneIsUsedAgain() => Assert.Equal([0, 1, 2, 1, 0], Assign((0, 30), (5, 10), (6, 40), (12, 50), (30, 35)));

    [Fact]
    public void Nothing_NeedsNoLane() => Assert.Empty(Lanes.Assign([]));

    [Fact]
    public void RandomSpans_NeverOverlapInALane_AndNeedNoMoreLanesThanOverlapAtOnce()
    {
        var random = new Random(11);
        for (var run = 0; run < 200; run++)
        {
            var spans = Enumerable.Range(0, random.Next(1, 60)).Select(_ => random.Next(0, 500)).Order().Select(s => (Start: s, Finish: s + random.Next(1, 80))).ToArray();
            var lanes = Assign(spans);
            foreach (var lane in spans.Zip(lanes).GroupBy(p => p.Second, p => p.First))
            {
                Assert.All(lane.Zip(lane.Skip(1)), pair => Assert.True(pair.First.Finish <= pair.Second.Start));
            }

            var atOnce = spans.Max(s => spans.Count(o => o.Start <= s.Start && s.Start < o.Finish));
            Assert.Equal(atOnce, lanes.Max() + 1);
        }
    }

    private static int[] Assign(params (int Start, int Finish)[] spans) =>
        Lanes.Assign([.. spans.Select(s => (Midnight.AddMinutes(s.Start), Midnight.AddMinutes(s.Finish)))]);
}

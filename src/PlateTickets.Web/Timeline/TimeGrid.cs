using System.Globalization;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stations.Duty;

namespace PlateTickets.Web.Timeline;

internal sealed record TimeTick(double X, string Label);

internal sealed record TimeDay(double X, double Width, string Label);

internal sealed record TimeShade(double X, double Width);

/// <summary>The lines and labels of the local time, and the working time, on a scale.</summary>
internal sealed record TimeGrid(IReadOnlyList<TimeDay> Days, IReadOnlyList<TimeTick> Ticks, IReadOnlyList<TimeShade> Working)
{
    // So far apart at least that "14:00" stands free.
    private const double LeastPx = 58;
    private const double LeastDayPx = 88;
    private static readonly int[] StepsMinutes = [15, 30, 60, 120, 180, 240, 360, 720, 1440];

    public static TimeGrid On(TimelineScale scale, Room room)
    {
        var step = StepsMinutes.FirstOrDefault(m => m / 60.0 * scale.PxPerHour >= LeastPx, StepsMinutes[^1]);
        var days = new List<TimeDay>();
        var ticks = new List<TimeTick>();
        var last = DateTime.MinValue;
        for (var day = SiteClock.Local(scale.FromUtc, room.Zone).Date; SiteClock.ToUtc(day, room.Zone) < scale.ToUtc; day = day.AddDays(1))
        {
            var begin = Math.Max(0, scale.X(SiteClock.ToUtc(day, room.Zone)));
            var end = Math.Min(scale.Width, scale.X(SiteClock.ToUtc(day.AddDays(1), room.Zone)));
            days.Add(new(begin, end - begin, end - begin < LeastDayPx ? "" : day.ToString("ddd d MMM", CultureInfo.GetCultureInfo("en-GB"))));
            for (var minute = 0; minute < 1440; minute += step)
            {
                var utc = SiteClock.ToUtc(day.AddMinutes(minute), room.Zone);
                // On the day when clocks are set forward an hour is missing: its ticks would fall on those of the next.
                if (utc > last && utc >= scale.FromUtc && utc < scale.ToUtc)
                {
                    ticks.Add(new(scale.X(utc), step == 1440 ? "" : SiteClock.Local(utc, room.Zone).ToString("HH:mm", CultureInfo.InvariantCulture)));
                }

                last = utc;
            }
        }

        var changes = room.DutyChanges.Select(c => new HeadcountChange(c.FromUtc, c.ToUtc, c.People));
        var working = DutyPlan.Of(room, changes, scale.FromUtc, scale.ToUtc).Working.Intervals.Select(i => new TimeShade(scale.X(i.StartUtc), scale.X(i.EndUtc) - scale.X(i.StartUtc)));
        return new(days, ticks, [.. working]);
    }
}

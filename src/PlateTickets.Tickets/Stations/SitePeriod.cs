using System.Globalization;
using PlateTickets.Process;

namespace PlateTickets.Tickets.Stations;

/// <summary>Whole days of the site's calendar, both included. A day is as long as its clocks make it: 23 or 25 hours when they change.</summary>
public sealed record SitePeriod(DateOnly From, DateOnly To)
{
    /// <summary>Nobody compares more than a year at once, and nothing that is read may grow without end.</summary>
    public const int MostDays = 366;

    public const int UsualDays = 30;
    private const string Form = "yyyy-MM-dd";

    public int Days => To.DayNumber - From.DayNumber + 1;

    /// <summary>As many days, right before.</summary>
    public SitePeriod Before => new(From.AddDays(-Days), From.AddDays(-1));

    public string FromText => From.ToString(Form, CultureInfo.InvariantCulture);

    public string ToText => To.ToString(Form, CultureInfo.InvariantCulture);

    /// <summary>The last days with today.</summary>
    public static SitePeriod Last(int days, DateTime nowUtc, TimeZoneInfo zone)
    {
        var today = DateOnly.FromDateTime(SiteClock.Local(nowUtc, zone));
        return new(today.AddDays(1 - days), today);
    }

    /// <summary>The days that somebody typed; the last 30 where nothing was.</summary>
    /// <param name="from">yyyy-MM-dd, or empty for 30 days up to <paramref name="to"/>.</param>
    /// <param name="to">yyyy-MM-dd, or empty for today.</param>
    /// <param name="nowUtc">For today.</param>
    /// <param name="zone">The site's.</param>
    /// <exception cref="PlateRoomException">No day, the wrong way round, or too long.</exception>
    public static SitePeriod Read(string? from, string? to, DateTime nowUtc, TimeZoneInfo zone)
    {
        var last = Day(to, "The last day") ?? Last(1, nowUtc, zone).To;
        var period = new SitePeriod(Day(from, "The first day") ?? last.AddDays(1 - UsualDays), last);
        return period.Days switch
        {
            <= 0 => throw new PlateRoomException("The first day lies after the last one: turn them round."),
            > MostDays => throw new PlateRoomException($"{period.Days} days are too many at once: choose {MostDays} or fewer."),
            _ => period,
        };
    }

    /// <summary>The instant at which it begins.</summary>
    public DateTime FromUtc(TimeZoneInfo zone) => SiteClock.ToUtc(From.ToDateTime(TimeOnly.MinValue), zone);

    /// <summary>The instant at which it is over; not part of it.</summary>
    public DateTime ToUtc(TimeZoneInfo zone) => SiteClock.ToUtc(To.AddDays(1).ToDateTime(TimeOnly.MinValue), zone);

    /// <summary>"27 Oct to 25 Nov 2026".</summary>
    public override string ToString()
    {
        var english = CultureInfo.GetCultureInfo("en-GB");
        var last = To.ToString("d MMM yyyy", english);
        return From == To ? last : $"{From.ToString(From.Year == To.Year ? "d MMM" : "d MMM yyyy", english)} to {last}";
    }

    // The calendar's first and last centuries are left out: a period and the one before it must fit in.
    private static DateOnly? Day(string? text, string what) => string.IsNullOrWhiteSpace(text)
        ? null
        : DateOnly.TryParseExact(text.Trim(), Form, CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) && day.Year is >= 1900 and <= 2200
            ? day
            : throw new PlateRoomException($"{what} “{text.Trim()}” is no day: write it like 2026-11-26.");
}

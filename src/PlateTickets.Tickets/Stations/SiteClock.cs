using System.Globalization;

namespace PlateTickets.Tickets.Stations;

/// <summary>Shows instants in the site's time zone and reads local times typed by people.</summary>
public static class SiteClock
{
    // Day before month in words: no reader takes 03/04 for another day.
    private static readonly CultureInfo English = CultureInfo.GetCultureInfo("en-GB");

    public static DateTime Local(DateTime utc, TimeZoneInfo zone) => TimeZoneInfo.ConvertTimeFromUtc(DateTime.SpecifyKind(utc, DateTimeKind.Utc), zone);

    /// <summary>"Thu 26 Nov, 14:00".</summary>
    public static string Moment(DateTime utc, TimeZoneInfo zone) => Local(utc, zone).ToString("ddd d MMM, HH:mm", English);

    /// <summary>"Thu 26 Nov 2026, 14:00".</summary>
    public static string MomentWithYear(DateTime utc, TimeZoneInfo zone) => Local(utc, zone).ToString("ddd d MMM yyyy, HH:mm", English);

    /// <summary>"14:05".</summary>
    public static string Time(DateTime utc, TimeZoneInfo zone) => Local(utc, zone).ToString("HH:mm", English);

    /// <summary>"Thursday 26 November 2026".</summary>
    public static string Day(DateOnly day) => day.ToString("dddd d MMMM yyyy", English);

    /// <summary>"14:00" on the day of <paramref name="nowUtc"/>, else "Thu 14:00", else the whole moment.</summary>
    public static string Near(DateTime utc, DateTime nowUtc, TimeZoneInfo zone)
    {
        var local = Local(utc, zone);
        var days = (local.Date - Local(nowUtc, zone).Date).Days;
        return days switch
        {
            0 => local.ToString("HH:mm", English),
            > -6 and < 6 => local.ToString("ddd HH:mm", English),
            _ => local.ToString("d MMM HH:mm", English),
        };
    }

    /// <summary>The next instant at which the site's clocks show this time: today or, when that is over, tomorrow.</summary>
    public static DateTime Next(TimeOnly time, DateTime nowUtc, TimeZoneInfo zone)
    {
        var today = Local(nowUtc, zone).Date;
        var utc = ToUtc(today + time.ToTimeSpan(), zone);
        return utc > nowUtc ? utc : ToUtc(today.AddDays(1) + time.ToTimeSpan(), zone);
    }

    /// <summary>A local time as an instant: a time skipped by daylight saving moves on by the skipped hour; an ambiguous one is the first.</summary>
    public static DateTime ToUtc(DateTime local, TimeZoneInfo zone)
    {
        var plain = DateTime.SpecifyKind(local, DateTimeKind.Unspecified);
        while (zone.IsInvalidTime(plain))
        {
            plain = plain.AddMinutes(30);
        }

        if (!zone.IsAmbiguousTime(plain))
        {
            return TimeZoneInfo.ConvertTimeToUtc(plain, zone);
        }

        return DateTime.SpecifyKind(plain - zone.GetAmbiguousTimeOffsets(plain).Max(), DateTimeKind.Utc);
    }
}

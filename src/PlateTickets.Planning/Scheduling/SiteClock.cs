namespace PlateTickets.Planning.Scheduling;

/// <summary>The instants of a local wall-clock time. A skipped time has one, the instant of the jump; a doubled time has two.</summary>
internal static class SiteClock
{
    public static DateTime Earliest(DateTime local, TimeZoneInfo zone) => Instant(local, zone, earliest: true);

    public static DateTime Latest(DateTime local, TimeZoneInfo zone) => Instant(local, zone, earliest: false);

    private static DateTime Instant(DateTime local, TimeZoneInfo zone, bool earliest)
    {
        local = DateTime.SpecifyKind(local, DateTimeKind.Unspecified);
        if (zone.IsInvalidTime(local))
        {
            local = FirstAfterGap(local, zone);
        }

        if (!zone.IsAmbiguousTime(local))
        {
            return TimeZoneInfo.ConvertTimeToUtc(local, zone);
        }

        var offsets = zone.GetAmbiguousTimeOffsets(local);
        return DateTime.SpecifyKind(local - (earliest ? offsets.Max() : offsets.Min()), DateTimeKind.Utc);
    }

    // Clocks are changed at whole minutes, so stepping by minutes ends on the first local time after the jump.
    private static DateTime FirstAfterGap(DateTime local, TimeZoneInfo zone)
    {
        local = local.AddTicks(-(local.Ticks % TimeSpan.TicksPerMinute));
        while (zone.IsInvalidTime(local))
        {
            local = local.AddMinutes(1);
        }

        return local;
    }
}

namespace PlateTickets.Web.Exchange.Webhooks;

/// <summary>
/// What a record is known by outside: its number alone would come a second time after a backup was restored, for something else, and a receiver that keeps
/// the ids it took would not take that.
/// </summary>
internal static class UniqueId
{
    public static string Of(long id, DateTime madeUtc) => $"{id}-{new DateTimeOffset(madeUtc, TimeSpan.Zero).ToUnixTimeMilliseconds():x}";
}

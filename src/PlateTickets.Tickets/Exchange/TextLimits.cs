namespace PlateTickets.Tickets.Exchange;

/// <summary>Texts of strangers have limits.</summary>
internal static class TextLimits
{
    /// <summary>At most so many characters; a longer text ends with an ellipsis.</summary>
    public static string Cut(this string text, int longest) => text.Length <= longest ? text : $"{text[..(longest - 1)]}…";
}

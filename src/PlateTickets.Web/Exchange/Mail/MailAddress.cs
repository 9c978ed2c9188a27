using MimeKit;

namespace PlateTickets.Web.Exchange.Mail;

/// <summary>Tells a mail address from what is none.</summary>
public static class MailAddress
{
    /// <summary>Longest address that a mail server takes, in characters: RFC 5321 4.5.3.1.3 without its angle brackets.</summary>
    public const int Longest = 254;

    /// <summary>Is this one bare address, without a name beside it?</summary>
    public static bool IsOne(string text) =>
        text.Length is > 0 and <= Longest && text.Count(c => c == '@') == 1 && !text.Any(c => char.IsWhiteSpace(c) || char.IsControl(c))
        && MailboxAddress.TryParse(ParserOptions.Default, text, out var read) && read.Address == text && read.Domain.Length > 0 && read.LocalPart.Length > 0;
}

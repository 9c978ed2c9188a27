using System.ComponentModel.DataAnnotations;

namespace PlateTickets.Web.Exchange.Mail;

/// <summary>How the connection to the mail server is kept from others.</summary>
public enum MailSecurity
{
    /// <summary>Begins in plain text and goes over to TLS before anything is said; the usual one on port 587.</summary>
    StartTls = 1,

    /// <summary>TLS from the first byte; the usual one on port 465.</summary>
    Tls = 2,

    /// <summary>Plain text: for a mail server on the same machine.</summary>
    None = 3,
}

/// <summary>The mail server through which customers are told: section "Mail".</summary>
public sealed class MailOptions : IValidatableObject
{
    public const string Section = "Mail";

    /// <summary>Its name; empty sends no mail.</summary>
    public string Server { get; set; } = "";

    [Range(1, 65535)]
    public int Port { get; set; } = 587;

    [EnumDataType(typeof(MailSecurity))]
    public MailSecurity Security { get; set; } = MailSecurity.StartTls;

    /// <summary>Empty signs in nowhere.</summary>
    public string User { get; set; } = "";

    public string Password { get; set; } = "";

    /// <summary>The address that mails come from; customers answer to it.</summary>
    public string From { get; set; } = "";

    public bool IsOn => Server.Length > 0;

    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (IsOn && !MailAddress.IsOne(From))
        {
            yield return new ValidationResult($"{Section}:{nameof(From)} must be one mail address, such as plates@plant.example, when {Section}:{nameof(Server)} is set; it is “{From}”.");
        }

        if (User.Length > 0 && Security == MailSecurity.None && !Server.Equals("localhost", StringComparison.OrdinalIgnoreCase) && Server is not ("127.0.0.1" or "::1"))
        {
            yield return new ValidationResult($"{Section}:{nameof(Password)} would go over the network in plain text: set {Section}:{nameof(Security)} to StartTls or Tls.");
        }
    }
}

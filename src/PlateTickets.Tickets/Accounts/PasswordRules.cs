using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Identity;

namespace PlateTickets.Tickets.Accounts;

/// <summary>
/// What a password must be, after NIST SP 800-63B-4 section 3.1.1.2: long rather than mixed, no composition rules, no expiry, and
/// not among the passwords that are tried first. Those are found by the zxcvbn estimator with its lists of common passwords, names and
/// words, and with what this room is called.
/// </summary>
public sealed class PasswordRules(int shortest) : IPasswordValidator<Account>
{
    /// <summary>Least length where the password is all that is asked for.</summary>
    public const int UsualShortest = 15;

    /// <summary>Least length that a setting may choose: for rooms where everybody has a second factor.</summary>
    public const int Least = 8;

    /// <summary>Longer ones only cost time.</summary>
    public const int Longest = 256;

    // A password on a list of common ones, a name with a year or keys in a row is found within 2^30 tries; three words are not.
    private const double LeastBits = 40;

    // The estimator's work grows with the square of the length; what is weak in a password shows in its first characters.
    private const int LongestJudged = 100;

    /// <summary>The same text in the same bytes from every keyboard (NFC).</summary>
    public static string Normal(string password) => password.Normalize(NormalizationForm.FormC);

    /// <summary>Why a password is refused, in a sentence; null for a good one.</summary>
    /// <param name="password">The password.</param>
    /// <param name="known">What everybody knows about it, such as the person's name.</param>
    public string? Refusal(string password, params IEnumerable<string> known)
    {
        // Characters as people count them.
        var length = new StringInfo(password).LengthInTextElements;
        if (length < shortest)
        {
            return $"The password has {length} characters. It needs {shortest} or more: four or five words in a row are easy to remember.";
        }

        if (password.Length > Longest)
        {
            return $"The password has {password.Length} characters. At most {Longest} are kept.";
        }

        var words = known.SelectMany(k => k.Split([' ', '@', '.', '-', '_'], StringSplitOptions.RemoveEmptyEntries)).Append("platetickets").Append("plate").Append("tickets");
        var judged = Zxcvbn.Zxcvbn.MatchPassword(password[..Math.Min(password.Length, LongestJudged)], words.Select(w => w.ToLowerInvariant()));
        return judged.Entropy >= LeastBits
            ? null
            : "This password is among the first that somebody would try. Take four words that do not belong together.";
    }

    /// <inheritdoc/>
    public Task<IdentityResult> ValidateAsync(UserManager<Account> manager, Account user, string? password) =>
        Task.FromResult(Refusal(password ?? "", user.UserName ?? "") is { } refusal
            ? IdentityResult.Failed(new IdentityError { Code = "PasswordRefused", Description = refusal })
            : IdentityResult.Success);
}

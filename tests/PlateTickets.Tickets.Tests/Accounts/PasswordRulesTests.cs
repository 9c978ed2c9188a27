using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Tests.Accounts;

/// <summary>
/// NIST SP 800-63B-4 section 3.1.1.2: at least 15 characters where the password is the only factor, at least 64 permitted, any printing
/// character and spaces, Unicode counted by character, no composition rules, and a blocklist of commonly used, expected or compromised ones.
/// (The section is quoted from memory.)
/// </summary>
public class PasswordRulesTests
{
    private readonly PasswordRules _rules = new(PasswordRules.UsualShortest);

    [Theory]
    [InlineData("correct horse battery staple")]
    [InlineData("lantern gravel seventeen otter")]
    [InlineData("grüne Gummistiefel am Deich")]
    [InlineData("0f9 8kd jq2 mmz 71x")]
    [InlineData("雪の夜に三つの鐘が静かに鳴り響く音")]
    public void LongPasswordOfAnyCharacters_IsTaken(string password) => Assert.Null(_rules.Refusal(password, "Mara Field"));

    [Theory]
    [InlineData("Xk7!pQ2#vR9$")]
    [InlineData("lantern gravel")]
    public void ShortPassword_IsRefused_HoweverMixed(string password) =>
        Assert.Contains("It needs 15 or more", _rules.Refusal(password, "Mara Field")!, StringComparison.Ordinal);

    [Theory]
    [InlineData("passwordpassword")]
    [InlineData("123456789012345")]
    [InlineData("Password12345678")]
    [InlineData("qwertyuiopasdfgh")]
    [InlineData("aaaaaaaaaaaaaaaaaa")]
    [InlineData("AnnaLindberg1985")]
    [InlineData("platetickets2026")]
    [InlineData("Mara Field 12345")]
    public void PasswordThatIsTriedFirst_IsRefused_HoweverLong(string password) =>
        Assert.Contains("among the first that somebody would try", _rules.Refusal(password, "Mara Field")!, StringComparison.Ordinal);

    [Fact]
    public void SixtyFourCharacters_AreTaken_AndAMegabyteIsNotHashed()
    {
        Assert.Null(_rules.Refusal("one two three four five six seven eight nine ten eleven twelve 13"));
        Assert.Contains("At most 256 are kept", _rules.Refusal(new string('q', 1_000_000))!, StringComparison.Ordinal);
    }

    /// <summary>The same letters typed on two keyboards: precomposed, and with a combining accent.</summary>
    [Fact]
    public void AccentsInEitherForm_AreTheSamePassword() => Assert.Equal(PasswordRules.Normal("caf\u00e9"), PasswordRules.Normal("cafe\u0301"));

    [Theory]
    [InlineData("12345")]
    [InlineData("123456789")]
    [InlineData("12345a")]
    [InlineData("111111")]
    [InlineData("123456")]
    [InlineData("987654")]
    [InlineData("121212")]
    public void SimplePin_IsRefused(string pin) => Assert.NotNull(AccountDesk.PinRefusal(pin));

    [Fact]
    public void OtherPin_IsTaken() => Assert.Null(AccountDesk.PinRefusal("407193"));
}

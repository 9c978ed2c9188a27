namespace PlateTickets.Process.Tests;

internal static class Refusals
{
    /// <summary>The call is refused with a sentence that holds these words.</summary>
    public static void Says(string words, Func<object> call) =>
        Assert.Contains(words, Assert.Throws<PlateRoomException>(() => { _ = call(); }).Message, StringComparison.Ordinal);
}

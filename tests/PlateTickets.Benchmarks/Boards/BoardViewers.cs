using System.Globalization;
using System.Net;
using System.Text.RegularExpressions;

namespace PlateTickets.Benchmarks.Boards;

/// <summary>
/// The viewers, in a process of their own so that the server's memory is only the server's. Reads commands from its input: "watch TEXT" arms
/// every viewer and answers "armed"; "seen MS" waits at most so long and answers with one time for each viewer, 0 where the text never came.
/// </summary>
internal static partial class BoardViewers
{
    public const string Command = "board-viewers";

    /// <summary>How many come first, alone.</summary>
    public const int First = 5;

    public static async Task<int> RunAsync(string[] args)
    {
        var (room, page, count) = (new Uri(args[0]), args[1], int.Parse(args[2], CultureInfo.InvariantCulture));
        var cookies = await SignInAsync(room);
        var circuits = new List<BoardCircuit>();
        await OpenAsync(First);
        Console.WriteLine("first");
        while (await Console.In.ReadLineAsync() is { } line)
        {
            switch (line.Split(' '))
            {
                case ["open"]:
                    await OpenAsync(count - First);
                    Console.WriteLine("all");
                    break;
                case ["watch", var text]:
                    circuits.ForEach(c => c.Want(text));
                    Console.WriteLine("armed");
                    break;
                case ["seen", var within]:
                    for (var waited = 0; waited < int.Parse(within, CultureInfo.InvariantCulture) && circuits.Any(c => c.SeenTicks == 0); waited += 10)
                    {
                        await Task.Delay(10);
                    }

                    Console.WriteLine(string.Join(' ', circuits.Select(c => c.SeenTicks.ToString(CultureInfo.InvariantCulture))));
                    break;
                case ["state"]:
                    Console.WriteLine(string.Create(
                        CultureInfo.InvariantCulture, $"{circuits.Sum(c => c.Batches)} {circuits.Sum(c => c.Bytes)} {circuits.Find(c => c.Error.Length > 0)?.Error.ReplaceLineEndings(" ")}"));
                    break;
                default:
                    await Task.WhenAll(circuits.Select(c => c.DisposeAsync().AsTask()));
                    return 0;
            }
        }

        return 1;

        // Some at once, but not all: a queue of handshakes says nothing about a board.
        async Task OpenAsync(int more)
        {
            for (var i = 0; i < more; i += 10)
            {
                circuits.AddRange(await Task.WhenAll(Enumerable.Range(i, Math.Min(10, more - i)).Select(_ => BoardCircuit.OpenAsync(room, page, cookies))));
            }
        }
    }

    private static async Task<CookieContainer> SignInAsync(Uri room)
    {
        var cookies = new CookieContainer();
        using var http = new HttpClient(new HttpClientHandler { CookieContainer = cookies }) { BaseAddress = room };
        var html = await http.GetStringAsync("/sign-in");
        var form = Form().Matches(html).Select(m => m.Value).First(f => f.Contains("value=\"Manager\"", StringComparison.Ordinal));
        var fields = Input().Matches(form).Select(m => m.Value)
            .Where(i => Name().IsMatch(i))
            .ToDictionary(i => Name().Match(i).Groups[1].Value, i => WebUtility.HtmlDecode(Value().Match(i).Groups[1].Value));
        using var answer = await http.PostAsync(Action().Match(form).Groups[1].Value, new FormUrlEncodedContent(fields));
        return answer.IsSuccessStatusCode ? cookies : throw new InvalidOperationException($"Nobody could sign in: {answer.StatusCode}.");
    }

    [GeneratedRegex("<form.*?</form>", RegexOptions.Singleline)]
    private static partial Regex Form();

    [GeneratedRegex("<(input|button)[^>]*>")]
    private static partial Regex Input();

    [GeneratedRegex(" name=\"([^\"]*)\"")]
    private static partial Regex Name();

    [GeneratedRegex(" value=\"([^\"]*)\"")]
    private static partial Regex Value();

    [GeneratedRegex(" action=\"([^\"]*)\"")]
    private static partial Regex Action();
}

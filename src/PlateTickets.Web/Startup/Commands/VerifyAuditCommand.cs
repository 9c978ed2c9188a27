using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts.Audit;

namespace PlateTickets.Web.Startup.Commands;

/// <summary>"audit verify": computes the whole audit trail again.</summary>
internal sealed class VerifyAuditCommand : RoomCommand
{
    private readonly Option<string?> _head = new("--head") { Description = "The head that was noted earlier, 64 hexadecimal digits; with --count", HelpName = "HASH" };
    private readonly Option<long?> _count = new("--count") { Description = "How many entries there were then", HelpName = "N" };

    public VerifyAuditCommand(CommandRoom room)
        : base(room, "verify", "Walks the audit trail, prints its count and head, and names the first entry that does not fit")
    {
        Options.Add(_head);
        Options.Add(_count);
    }

    protected override async Task<int> RunAsync(ParseResult asked, CancellationToken cancel)
    {
        var noted = Noted(asked.GetValue(_head), asked.GetValue(_count));
        await using var db = await Room.OpenAsync(cancel);
        await db.Database.OpenConnectionAsync(cancel);
        var watch = Stopwatch.StartNew();
        var verdict = await new AuditCheck(db.Database.GetDbConnection()).WalkAsync(noted, cancel);
        await SayAsync(string.Create(CultureInfo.InvariantCulture, $"Entries that fit: {verdict.Figures.Count} ({watch.Elapsed.TotalSeconds:0.0} s)"));
        await SayAsync($"Head: {verdict.Figures.Hash}");
        if (!verdict.Whole)
        {
            await Room.Errors.WriteLineAsync(verdict.Wrong);
            await Room.Errors.WriteLineAsync("The trail was tampered with or is damaged. Keep this database as it is, and compare it with a backup.");
            return 1;
        }

        await SayAsync(noted is null
            ? "The trail is whole. Note count and head somewhere else: with --head and --count they show later whether its end was cut off or all of it written anew."
            : "The trail is whole, and the noted figures hold.");
        return 0;
    }

    private static AuditFigures? Noted(string? head, long? count) => (head, count) switch
    {
        (null, null) => null,
        (null, _) or (_, null) => throw new PlateRoomException("Give --head and --count together, as they were printed."),
        var (hash, number) when hash.Length == 64 && hash.All(char.IsAsciiHexDigit) && number >= 0 => new AuditFigures(number.Value, hash),
        _ => throw new PlateRoomException("--head takes the 64 hexadecimal digits that were printed, --count the number of entries."),
    };
}

using System.CommandLine;
using PlateTickets.Process;

namespace PlateTickets.Web.Startup.Commands;

/// <summary>
/// One command. A new one derives from this, adds its arguments and options in its constructor, and gets a line in <see cref="RoomCommands"/>.
/// A <see cref="PlateRoomException"/> ends it with 1 and its sentence.
/// </summary>
internal abstract class RoomCommand : Command
{
    protected RoomCommand(CommandRoom room, string name, string says)
        : base(name, says)
    {
        Room = room;
        SetAction(GuardedAsync);
    }

    protected CommandRoom Room { get; }

    /// <summary>Does the work and prints what came of it. Returns 0 when it went well, 1 when not.</summary>
    protected abstract Task<int> RunAsync(ParseResult asked, CancellationToken cancel);

    protected Task SayAsync(string sentence) => Room.Output.WriteLineAsync(sentence);

    private async Task<int> GuardedAsync(ParseResult asked, CancellationToken cancel)
    {
        try
        {
            return await RunAsync(asked, cancel);
        }
        catch (PlateRoomException refused)
        {
            await Room.Errors.WriteLineAsync(refused.Message);
            return 1;
        }
        catch (OperationCanceledException)
        {
            await Room.Errors.WriteLineAsync("Stopped before the end.");
            return 1;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or System.Data.Common.DbException or Microsoft.Extensions.Options.OptionsValidationException)
        {
            // The disk, the database or a setting: the message names it, a stack trace would only hide it.
            await Room.Errors.WriteLineAsync(e.Message);
            return 1;
        }
    }
}

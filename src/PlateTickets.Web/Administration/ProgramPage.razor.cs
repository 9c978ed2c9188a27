using System.Globalization;
using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;
using PlateTickets.Web.Startup.Backups;

namespace PlateTickets.Web.Administration;

/// <summary>The program's own health, for the administrator: backups, disk, audit trail, versions.</summary>
public sealed partial class ProgramPage : IDisposable
{
    private const int MostShown = 30;

    private readonly CancellationTokenSource _left = new();
    private Room? _room;
    private ProgramState? _state;
    private bool _making;
    private string? _checking;
    private string _told = "";
    private string _trouble = "";
    private string _refusal = "";

    [Inject]
    public required ProgramStates States { get; set; }

    [Inject]
    public required BackupDesk Desk { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    private bool Busy => _making || _checking is not null;

    private string Schedule => $"In {_state!.Folder}, every {Hours(Desk.Every.TotalHours)}. The next one is due {(_state.NextUtc is { } next && next > Now ? $"on {SiteClock.MomentWithYear(next, _room!.Zone)}" : "now")}.";

    private DateTime Now => Clock.GetUtcNow().UtcDateTime;

    public void Dispose()
    {
        _left.Cancel();
        _left.Dispose();
    }

    protected override async Task OnInitializedAsync()
    {
        try
        {
            Viewer.Require(Right.KeepProgram);
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
            return;
        }

        _room = await Rooms.GetAsync();
        _state = await States.ReadAsync();
    }

    private Task BackUpAsync() => DoAsync(
        async () =>
        {
            _making = true;
            // Goes on when the page is left: a backup that was asked for is wanted.
            var made = await Desk.MakeAsync(null, Viewer.Name);
            return made.Checked.Whole
                ? string.Create(CultureInfo.InvariantCulture, $"The backup is made and checked: {Size(made.Manifest.Bytes)} in {made.Took.TotalSeconds:0.0} s.")
                : throw new PlateRoomException($"The backup was made, but it is not whole: {string.Join(" ", made.Checked.Faults)}");
        });

    private Task CheckAsync(KeptBackup backup) => DoAsync(
        async () =>
        {
            _checking = backup.Name;
            var found = await Desk.CheckAsync(backup.Name, _left.Token);
            return found.Whole ? $"{backup.Name} is whole." : throw new PlateRoomException($"{backup.Name} is not whole: {string.Join(" ", found.Faults)}");
        });

    private async Task DoAsync(Func<Task<string>> step)
    {
        (_told, _trouble) = ("", "");
        try
        {
            Viewer.Require(Right.KeepProgram);
            _told = await step();
        }
        catch (PlateRoomException refused)
        {
            _trouble = refused.Message;
        }
        catch (OperationCanceledException) when (_left.IsCancellationRequested)
        {
            // The page was left: nobody reads the answer.
            return;
        }
        finally
        {
            (_making, _checking) = (false, null);
        }

        _state = await States.ReadAsync();
    }

    private string CheckText(KeptBackup backup) => backup switch
    {
        { Damage: { } damage } => $"not whole: {damage}",
        { Checked: null } => "not checked yet",
        { Checked: { Whole: true } good } => $"whole, {SiteClock.MomentWithYear(good.AtUtc, _room!.Zone)}",
        _ => $"not whole: {string.Join(" ", backup.Checked.Faults)}",
    };

    private string Age(DateTime utc) => (Now - utc) switch
    {
        { TotalHours: < 1 } age => $"{Math.Max(0, (int)age.TotalMinutes)} min",
        { TotalDays: < 2 } age => Hours((int)age.TotalHours),
        var age => $"{(int)age.TotalDays} days",
    };

    private static string Hours(double hours) => hours == 1 ? "1 hour" : string.Create(CultureInfo.InvariantCulture, $"{hours:0} hours");

    private static string Size(long bytes) => bytes < 1_000_000_000
        ? string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e6:0.0} MB")
        : string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e9:0.0} GB");
}

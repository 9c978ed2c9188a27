using System.Globalization;
using Microsoft.AspNetCore.Components;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Handovers;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Handovers;

/// <summary>The closing page of a shift. Notes are saved while they are typed; what the server does not have yet stays in the browser.</summary>
public sealed partial class HandoverPage : IDisposable
{
    private const int PageSize = 20;
    private static readonly TimeSpan SaveAfter = TimeSpan.FromSeconds(1);

    private Room? _room;
    private IReadOnlyList<OpenHandover>? _open;
    private OpenHandover? _chosen;
    private HandoverFacts? _facts;
    private Handover? _closed;
    private Handover? _theirs;
    private HandoverLine? _toConfirm;
    private IReadOnlyList<HandoverLine> _earlier = [];
    private int _count;
    private string _notes = "";
    private string _savedNotes = "";
    private string _savedBy = "";
    private DateTime? _savedUtc;
    private int _version = OpenHandover.NotWritten;
    private string _refusal = "";
    private string? _kept;
    private bool _asksToClose;
    private bool _looksForKept;
    private bool _saving;
    private ITimer? _timer;

    /// <summary>Which shift: its start in UTC and its name.</summary>
    [SupplyParameterFromQuery(Name = "shift")]
    public string? ShiftAsked { get; set; }

    [SupplyParameterFromQuery(Name = "page")]
    public int? PageAsked { get; set; }

    [Inject]
    public required HandoverDesk Desk { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required BrowserTools Browser { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    private DateTime Now => Clock.GetUtcNow().UtcDateTime;

    private int PageNumber => Math.Max(1, PageAsked ?? 1);

    private bool MayWrite => Viewer.Can(Right.WorkStations);

    private string Draft => $"handover {KeyOf(_chosen!.Shift)}";

    private string Saved => _theirs is not null ? "Not saved: choose above first."
        : _notes != _savedNotes ? "Typing … kept in this browser, saved in a moment."
        : _savedUtc is { } at ? $"Saved by {_savedBy}, {SiteClock.Near(at, Now, _room!.Zone)}." : "Notes are saved while you type.";

    public void Dispose() => _timer?.Dispose();

    protected override async Task OnParametersSetAsync()
    {
        _room = await Rooms.GetAsync();
        await ListAsync();
        var open = await Desk.OpenAsync();
        var chosen = open.FirstOrDefault(o => KeyOf(o.Shift) == ShiftAsked) ?? Desk.Likely(open);
        _open = open;
        if (chosen?.Shift != _chosen?.Shift)
        {
            Take(chosen);
            await ReadFactsAsync();
        }
    }

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (_looksForKept && _chosen is not null && MayWrite)
        {
            _looksForKept = false;
            if (await Browser.DraftAsync(Draft) is { Length: > 0 } kept && kept != _savedNotes && kept != _notes)
            {
                _kept = kept;
                StateHasChanged();
            }
        }
    }

    private static string KeyOf(ShiftDay shift) => string.Create(CultureInfo.InvariantCulture, $"{shift.StartUtc:yyyyMMdd'T'HHmm'Z'} {shift.Name}");

    private void Take(OpenHandover? chosen)
    {
        (_chosen, _closed, _theirs, _refusal, _kept, _asksToClose, _looksForKept) = (chosen, null, null, "", null, false, true);
        TakeSaved(chosen?.Handover);
        _notes = _savedNotes;
    }

    private void TakeSaved(Handover? handover) =>
        (_version, _savedNotes, _savedBy, _savedUtc) = (handover?.Version ?? OpenHandover.NotWritten, handover?.Notes ?? "", handover?.NotesBy ?? "", handover?.NotesUtc);

    private async Task ListAsync()
    {
        (_earlier, _count) = await Desk.EarlierAsync((PageNumber - 1) * PageSize, PageSize);
        var newest = PageNumber == 1 ? _earlier : (await Desk.EarlierAsync(0, 1)).Lines;
        _toConfirm = newest.Count > 0 && newest[0] is { State: HandoverState.Closed } last && last.ClosedBy != Viewer.Name ? last : null;
    }

    private async Task ReadFactsAsync() => _facts = _chosen is null ? null : await Desk.FactsAsync(_chosen.Shift);

    private void Typed(ChangeEventArgs change)
    {
        _notes = change.Value as string ?? "";
        _kept = null;
        _timer ??= Clock.CreateTimer(_ => InvokeAsync(SaveAsync), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
        _timer.Change(SaveAfter, Timeout.InfiniteTimeSpan);
    }

    private async Task SaveAsync()
    {
        // While a conflict is open nothing is saved; while a save is on its way the next one waits for its version.
        if (_theirs is not null || _chosen is null || _closed is not null || _notes == _savedNotes)
        {
            return;
        }

        if (_saving)
        {
            _timer?.Change(SaveAfter, Timeout.InfiniteTimeSpan);
            return;
        }

        _saving = true;
        try
        {
            Viewer.Require(Right.WorkStations);
            var text = _notes;
            await ChangedByOthersAsync(async () => TakeSaved(await Desk.SaveNotesAsync(_chosen.Shift, text, _version, Viewer.Name)));
            if (_theirs is null && _refusal.Length == 0)
            {
                await Browser.DraftSavedAsync(Draft, text);
            }
        }
        finally
        {
            _saving = false;
        }

        StateHasChanged();
    }

    private async Task CloseAsync()
    {
        if (_saving)
        {
            return;
        }

        _saving = true;
        try
        {
            Viewer.Require(Right.WorkStations);
            var closed = default(Handover);
            await ChangedByOthersAsync(async () => closed = await Desk.CloseAsync(_chosen!.Shift, _notes, _version, Viewer.Name));
            _asksToClose = false;
            if (closed is not null)
            {
                TakeSaved(closed);
                await Browser.DraftSavedAsync(Draft, null);
                _closed = closed;
                await ListAsync();
            }
        }
        finally
        {
            _saving = false;
        }
    }

    private async Task ChangedByOthersAsync(Func<Task> change)
    {
        _refusal = "";
        try
        {
            await change();
        }
        catch (HandoverChangedException changed)
        {
            (_refusal, _theirs) = (changed.Message, changed.Current);
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }
    }

    private Task KeepBothAsync() => SettleAsync(_theirs!.Notes.Length == 0 ? _notes : $"{_theirs.Notes.TrimEnd()}\n\n{_notes}");

    private Task KeepMineAsync() => SettleAsync(_notes);

    private Task TakeTheirsAsync() => SettleAsync(_theirs!.Notes);

    private async Task SettleAsync(string notes)
    {
        TakeSaved(_theirs);
        (_theirs, _refusal, _notes) = (null, "", notes);
        if (_notes == _savedNotes)
        {
            await Browser.DraftSavedAsync(Draft, null);
        }

        await SaveAsync();
    }

    private async Task TakeKeptAsync()
    {
        _notes = _savedNotes.Length == 0 || _kept!.StartsWith(_savedNotes, StringComparison.Ordinal) ? _kept! : $"{_savedNotes.TrimEnd()}\n\n{_kept}";
        _kept = null;
        await SaveAsync();
        await Browser.DraftSavedAsync(Draft, null);
    }

    private async Task LeaveKeptAsync()
    {
        _kept = null;
        await Browser.DraftSavedAsync(Draft, null);
    }
}

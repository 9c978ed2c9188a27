using System.Globalization;
using Microsoft.AspNetCore.Components;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Orders;

/// <summary>Confirmation, order again, another due time, cancel.</summary>
public sealed partial class TicketActions
{
    private const string LocalTime = "yyyy-MM-ddTHH:mm";
    private static readonly TimeSpan UsualLead = TimeSpan.FromHours(24);

    private Act _open;
    private string _due = "";
    private string _copies = "1";
    private string _reason = "";
    private string _effect = "";
    private string _hint = "";
    private string _refusal = "";
    private string _done = "";
    private IReadOnlyList<string> _lines = [];
    private bool _ready;
    private bool _busy;
    private int _question;
    private LeavingEffect? _cancel;

    private enum Act
    {
        None,
        Again,
        Due,
        Copies,
        Cancel,
    }

    [Parameter, EditorRequired]
    public required TicketView View { get; set; }

    [Parameter, EditorRequired]
    public required Room Room { get; set; }

    /// <summary>Something was changed: the page reads the ticket again.</summary>
    [Parameter]
    public EventCallback Changed { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required OrderEntry Entry { get; set; }

    [Inject]
    public required OrderChanges Changes { get; set; }

    [Inject]
    public required OrderCopies Copies { get; set; }

    [Inject]
    public required PromiseDesk Promises { get; set; }

    [Inject]
    public required WhatIf Question { get; set; }

    [Inject]
    public required PlanBook Plan { get; set; }

    [Inject]
    public required NavigationManager Navigation { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    private bool IsOpen => View.Ticket.State is not (TicketState.Done or TicketState.Cancelled);

    private string Title => _open switch
    {
        Act.Again => "Order again",
        Act.Due => "Change the due time",
        Act.Copies => "Change the copies",
        _ => "Cancel the order",
    };

    private string Expanded(Act act) => _open == act ? "true" : "false";

    private static string Text(ChangeEventArgs e) => e.Value as string ?? "";

    private static IEnumerable<string> CancelLines(LeavingEffect effect) => effect is { PutBack.Count: 0, GivenUp.Count: 0, GoOn.Count: 0, Unlaid: 0 }
        ? ["Nothing has been made for it yet."]
        : Lines(effect, "the plates of this ticket are waste when they are cut");

    /// <param name="effect">What becomes of the sheets.</param>
    /// <param name="waste">Which plates of sheets that go on are waste.</param>
    private static IEnumerable<string> Lines(LeavingEffect effect, string waste)
    {
        if (effect.PutBack.Count > 0)
        {
            yield return $"{Sheets(effect.PutBack)} not started: the raw {(effect.PutBack.Count == 1 ? "sheet is" : "sheets are")} stock again. Destroy the {(effect.PutBack.Count == 1 ? "traveler" : "travelers")}.";
        }

        if (effect.GivenUp.Count > 0)
        {
            yield return $"{Sheets(effect.GivenUp)} in work: given up. What is in a machine must be taken out.";
        }

        if (effect.GoOn.Count > 0)
        {
            yield return $"{Sheets(effect.GoOn)} with other plates that are wanted: {(effect.GoOn.Count == 1 ? "it goes" : "they go")} on; {waste}.";
        }

        if (effect.Unlaid > 0)
        {
            yield return effect.Unlaid == 1 ? "1 plate without a sheet is not made." : $"{effect.Unlaid} plates without a sheet are not made.";
        }
    }

    private static string Sheets(IReadOnlyList<string> numbers) =>
        $"{(numbers.Count == 1 ? "Sheet" : "Sheets")} {string.Join(", ", numbers.Take(6).Select(TrackingNumber.ForPeople))}{(numbers.Count > 6 ? $" and {numbers.Count - 6} more" : "")},";

    private async Task OpenAsync(Act act)
    {
        (_open, _refusal, _done, _effect, _reason, _cancel) = (_open == act ? Act.None : act, "", "", "", "", null);
        (_lines, _ready) = ([], false);
        var now = Clock.GetUtcNow().UtcDateTime;
        switch (_open)
        {
            case Act.Again:
                // As long as last time, and at the same hour.
                var lead = View.Order.DueUtc - View.Order.EnteredUtc;
                _due = Local(now + (lead > UsualLead ? lead : UsualLead));
                _copies = View.Order.Copies.ToString(CultureInfo.InvariantCulture);
                break;
            case Act.Due:
                (_due, _hint) = (Local(View.Order.DueUtc), "Type the new time: what it does is shown before anything is changed.");
                break;
            case Act.Copies:
                (_copies, _lines) = (View.Order.Copies.ToString(CultureInfo.InvariantCulture), ["Type the new number: what it does is shown before anything is changed."]);
                break;
            case Act.Cancel:
                await TryAsync(async () => _cancel = await Changes.EffectAsync(View.Order.Number));
                break;
        }
    }

    private void Close() => (_open, _refusal) = (Act.None, "");

    private Task AgainAsync() => TryAsync(async () =>
    {
        Viewer.Require(Right.EnterOrders);
        Navigation.NavigateTo(Urls.Ticket(await Entry.RepeatAsync(View.Order.Number, Due(), Wanted(), Viewer.Name)));
    });

    private int Wanted() => int.TryParse(_copies, NumberStyles.None, CultureInfo.InvariantCulture, out var typed)
        ? typed : throw new PlateRoomException("Type how many plates of each colour are wanted: 1 or more.");

    private async Task CopiesTypedAsync(ChangeEventArgs e)
    {
        (_copies, _lines, _ready) = (Text(e), [], false);
        var question = ++_question;
        await TryAsync(async () =>
        {
            var effect = await Copies.EffectAsync(View.Order.Number, Wanted());
            var lines = Lines(effect, View).ToList();
            if (effect.NewSheets.Count > 0)
            {
                lines.Add(await PromisedAsync(effect.NewSheets));
            }

            if (question == _question)
            {
                (_lines, _ready) = (lines, Wanted() != View.Order.Copies);
            }
        });
    }

    private static IEnumerable<string> Lines(CopiesEffect effect, TicketView view)
    {
        if (effect is { Added: 0, Removed: 0 })
        {
            yield return view.Ticket.Separations.Count == 0
                ? "The separations have not come yet: the plates are made when they come."
                : "That is what it has now: nothing changes.";
        }

        if (effect.Added > 0)
        {
            var plates = effect.Added == 1 ? "1 plate is added" : $"{effect.Added} plates are added";
            yield return effect.NewSheets.Count switch
            {
                0 => $"{plates}. The shelf has no sheet for {(effect.Added == 1 ? "it" : "them")}: the layout page will show {(effect.Added == 1 ? "it" : "them")}.",
                1 => $"{plates}, on 1 new sheet.",
                var sheets => $"{plates}, on {sheets} new sheets.",
            };
        }

        if (effect.Removed > 0)
        {
            yield return effect.Removed == 1 ? "1 plate is not wanted any more." : $"{effect.Removed} plates are not wanted any more.";
        }

        foreach (var line in Lines(effect.Sheets, "the plates that are not wanted are waste when they are cut"))
        {
            yield return line;
        }
    }

    private async Task<string> PromisedAsync(IReadOnlyList<AskedSheet> sheets)
    {
        try
        {
            var promise = (await Promises.AskAsync(View.Order.MaterialId, sheets)).InTurn;
            var done = PromiseDesk.Rounded(promise.Finish.NinetyFive);
            return $"The added plates would be done by {SiteClock.Moment(done, Room.Zone)} with 95 % confidence, {(done <= View.Order.DueUtc ? "in time" : "after the due time")}, without making others later.";
        }
        catch (PlateRoomException refused)
        {
            return refused.Message;
        }
    }

    private Task SetCopiesAsync() => TryAsync(async () =>
    {
        Viewer.Require(Right.EnterOrders);
        var (copies, before) = (Wanted(), View.Order.Copies);
        var made = await Copies.SetAsync(View.Order.Number, copies, View.Order.Version, Viewer.Name);
        Close();
        var next = made.Count > 0 ? $" Print the {(made.Count == 1 ? "traveler" : "travelers")} of {string.Join(", ", made.Select(TrackingNumber.ForPeople))}."
            : copies > before && View.Ticket.Separations.Count > 0 ? " The new plates wait on the layout page: the shelf has no sheet for them." : "";
        _done = $"{(copies == 1 ? "1 plate" : $"{copies} plates")} of each colour {(copies == 1 ? "is" : "are")} wanted now, {before} before.{next}";
        await Changed.InvokeAsync();
    });

    private async Task DueTypedAsync(ChangeEventArgs e)
    {
        (_due, _effect, _hint) = (Text(e), "", "");
        var question = ++_question;
        await TryAsync(async () =>
        {
            var due = Due();
            if (OrderRules.DueRefusal(due, Room, Clock.GetUtcNow().UtcDateTime) is { } refusal)
            {
                throw new PlateRoomException(refusal);
            }

            _effect = "Looking at the plan …";
            StateHasChanged();
            var effect = await EffectAsync(due);
            if (question == _question)
            {
                _effect = effect;
            }
        });
    }

    private async Task<string> EffectAsync(DateTime due)
    {
        if (Plan.Now?.Live.Request.Tickets.Any(t => t.Id == View.Order.Id) != true)
        {
            return "This ticket is not in the plan yet, so nothing else moves.";
        }

        try
        {
            if (await Question.AskAsync(new Scenario { Due = new Dictionary<int, DateTime> { [View.Order.Id] = due } }) is not { } answer)
            {
                return "There is no plan yet: its effect cannot be told.";
            }

            var mine = answer.Tickets.FirstOrDefault(t => t.TicketId == View.Order.Id);
            var done = mine?.AfterUtc ?? View.PlannedDoneUtc;
            var newlyLate = answer.Tickets.Where(t => t.TicketId != View.Order.Id && t.IsLate && !t.WasLate).ToList();
            var others = newlyLate.Count switch
            {
                0 => "No other ticket becomes late.",
                1 => "One other ticket becomes late.",
                var count => $"{count} other tickets become late.",
            };
            return done is { } finish
                ? $"Planned done {SiteClock.Moment(finish, Room.Zone)}, {(finish <= due ? "in time" : $"{Durations.ForPeople((finish - due).TotalSeconds)} late")}. {others}"
                : others;
        }
        catch (PlanException refused)
        {
            return $"No plan can be made with it: {refused.Message}";
        }
    }

    private Task SetDueAsync() => TryAsync(async () =>
    {
        Viewer.Require(Right.EnterOrders);
        var due = Due();
        await Changes.SetDueAsync(View.Order.Number, due, View.Order.Version, Viewer.Name);
        Close();
        _done = $"Due is {SiteClock.MomentWithYear(due, Room.Zone)} now. The plan follows.";
        await Changed.InvokeAsync();
    });

    private Task CancelAsync() => TryAsync(async () =>
    {
        Viewer.Require(Right.EnterOrders);
        await Changes.CancelAsync(View.Order.Number, _reason, Viewer.Name);
        Close();
        _done = "The order is cancelled.";
        await Changed.InvokeAsync();
    });

    private async Task TryAsync(Func<Task> work)
    {
        (_busy, _refusal) = (true, "");
        try
        {
            await work();
        }
        catch (OrderRefusedException refused)
        {
            _refusal = string.Join(" ", refused.Errors.Values);
        }
        catch (PlateRoomException refused)
        {
            (_refusal, _effect) = (refused.Message, "");
        }
        finally
        {
            _busy = false;
        }
    }

    private string Local(DateTime utc) => SiteClock.Local(utc, Room.Zone).ToString(LocalTime, CultureInfo.InvariantCulture);

    private DateTime Due() => DateTime.TryParseExact(_due, [LocalTime, "yyyy-MM-ddTHH:mm:ss"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var local)
        ? SiteClock.ToUtc(local, Room.Zone)
        : throw new PlateRoomException("Type the due day and time, such as 27/11/2026 14:00.");
}

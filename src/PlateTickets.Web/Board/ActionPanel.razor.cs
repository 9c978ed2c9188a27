using System.Globalization;
using Microsoft.AspNetCore.Components;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stations.Duty;
using PlateTickets.Web.Planning;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Board;

/// <summary>Shows what a deed would do to the plan, and does it on a click.</summary>
public sealed partial class ActionPanel
{
    private const int MovedShown = 8;

    private ElementReference _title;
    private string _until = "";
    private string _reason = "";
    private int _people = 1;
    private string _peopleMove = "missing";
    private string _refusal = "";
    private bool _asking;
    private bool _applied;
    private bool _focus;
    private bool _nothingPlanned;
    private Move? _move;
    private WhatIfAnswer? _answer;
    private Dictionary<int, BoardTicket> _names = [];
    private IReadOnlyList<DutyChange> _inForce = [];

    [Parameter, EditorRequired]
    public required BoardAsk Ask { get; set; }

    [Parameter, EditorRequired]
    public required Room Room { get; set; }

    [Parameter]
    public EventCallback Close { get; set; }

    [Inject]
    public required WhatIf Question { get; set; }

    [Inject]
    public required DutyDesk Desk { get; set; }

    [Inject]
    public required BoardState Board { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    private DateTime Now => Clock.GetUtcNow().UtcDateTime;

    // A deed that needs a time or a reason is asked for first.
    private bool NeedsMore => Ask.Deed is BoardDeed.Down or BoardDeed.Hold or BoardDeed.People;

    private bool CanApply => !_asking && _move is not null && (_answer is not null || _nothingPlanned || Ask.Deed == BoardDeed.GoOn);

    private string Title => Ask.Deed switch
    {
        BoardDeed.Rush => $"Rush {Ask.Name}",
        BoardDeed.InTurn => $"No rush any more: {Ask.Name}",
        BoardDeed.Hold => $"Hold {Ask.Name}",
        BoardDeed.GoOn => $"Let {Ask.Name} go on",
        BoardDeed.Down => $"{Ask.Name} is down",
        BoardDeed.Up => $"{Ask.Name} is up again",
        _ => "Operators on duty",
    };

    private string ApplyText => Ask.Deed switch
    {
        BoardDeed.Rush => "Rush it",
        BoardDeed.InTurn => "Take the rush back",
        BoardDeed.Hold => "Put it on hold",
        BoardDeed.GoOn => "Let it go on",
        BoardDeed.Down => "Mark it down",
        BoardDeed.Up => "Mark it up",
        _ => "Apply",
    };

    protected override async Task OnInitializedAsync()
    {
        _names = Board.Now.Sheets.Values.SelectMany(s => s.Tickets).DistinctBy(t => t.Id).ToDictionary(t => t.Id);
        Look();
        if (Ask.Deed == BoardDeed.GoOn)
        {
            _move = new GoOnMove(Title, Ask.Id);
        }
        else if (!NeedsMore)
        {
            await AskAsync();
        }
    }

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        // A button that has gone takes the focus with it, and with the focus the keyboard.
        if (firstRender || _focus)
        {
            _focus = false;
            await _title.FocusAsync();
        }
    }

    private void Look() => _inForce = Ask.Deed == BoardDeed.People ? [.. Room.DutyChanges.Where(c => c.ToUtc > Now && c.ToUtc > c.FromUtc)] : [];

    // What was shown was for other values.
    private void Changed() => (_refusal, _answer, _move, _nothingPlanned) = ("", null, null, false);

    private async Task AskAsync()
    {
        Changed();
        _move = MoveOf();
        if (_move is null)
        {
            return;
        }

        _asking = true;
        StateHasChanged();
        try
        {
            _answer = await Question.AskAsync(_move.AddTo(new Scenario()));
            _nothingPlanned = _answer is null;
        }
        catch (PlanException)
        {
            _refusal = "With this no plan is left: nobody would be there to do the work, or no machine for a stage. Choose another time.";
        }
        finally
        {
            _asking = false;
        }
    }

    private Move? MoveOf()
    {
        switch (Ask.Deed)
        {
            case BoardDeed.Rush:
                return new RushMove(Title, Ask.Id);
            case BoardDeed.InTurn:
                return new InTurnMove(Title, Ask.Id);
            case BoardDeed.Up:
                return new UpMove(Title, Ask.Id);
            case BoardDeed.Hold when _reason.Trim().Length == 0:
                _refusal = "Say why the ticket is held: whoever finds its sheets will ask.";
                return null;
            case BoardDeed.Hold:
                return new HoldMove(Title, Ask.Id, _reason);
            case BoardDeed.Down:
                return Until("the machine is back") is { } back ? new DownMove(Title, new Downtime(Ask.Id, Now, back), _reason) : null;
            default:
                return PeopleMoveOf();
        }
    }

    private PeopleMove? PeopleMoveOf()
    {
        if (_people is < 1 or > 50)
        {
            _refusal = "Say how many operators: 1 to 50.";
            return null;
        }

        if (Until("this ends") is not { } until)
        {
            return null;
        }

        var from = _peopleMove == "overtime" ? WhatIf.ShiftEnd(Room, Now) : Now;
        if (until <= from)
        {
            _refusal = $"The shift ends at {At(from)}: overtime must end later than that.";
            return null;
        }

        var people = _peopleMove == "missing" ? -_people : _people;
        return new PeopleMove(PeopleText(people, from, until), new HeadcountChange(from, until, people), _reason);
    }

    private DateTime? Until(string what)
    {
        if (TimeOnly.TryParseExact(_until.Trim(), ["HH:mm", "H:mm"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var time))
        {
            return SiteClock.Next(time, Now, Room.Zone);
        }

        _refusal = _until.Trim().Length == 0 ? $"Type the time when {what}, like 14:00." : $"“{_until}” is no time of day: type it like 14:00.";
        return null;
    }

    private async Task ApplyAsync()
    {
        try
        {
            Viewer.Require(Right.ChangePlan);
            await _move!.ApplyAsync(Desk, Viewer.Name);
            (_applied, _focus) = (true, true);
        }
        catch (PlateRoomException refused)
        {
            (_refusal, _answer) = (refused.Message, null);
        }
    }

    private async Task TakeBackAsync(int id)
    {
        try
        {
            Viewer.Require(Right.ChangePlan);
            await Desk.EndPeopleChangeAsync(id, Viewer.Name);
            (_applied, _focus) = (true, true);
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }
    }

    private string PeopleText(int people, DateTime from, DateTime to)
    {
        var who = Math.Abs(people) == 1 ? "1 operator" : $"{Math.Abs(people)} operators";
        return people < 0 ? $"{who} missing until {At(to)}" : $"{who} more from {At(from)} until {At(to)}";
    }

    private string Name(int ticketId) => _names.TryGetValue(ticketId, out var ticket) ? $"{ticket.Customer}: {ticket.Title}" : "a ticket that is done";

    private string At(DateTime utc) => SiteClock.Near(utc, Now, Room.Zone);
}

using System.Globalization;
using Microsoft.AspNetCore.Components;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stations.Duty;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Planning;

/// <summary>Plays what may happen through on the plan, and does it on a click.</summary>
public sealed partial class WhatIfPage : IDisposable
{
    private const int TicketsShown = 40;

    private readonly List<Move> _moves = [];
    private Room? _room;
    private IReadOnlyList<BoardTicket> _tickets = [];
    private IReadOnlyList<InForce> _inForce = [];
    private WhatIfAnswer? _answer;
    private bool _asking;
    private int _question;
    private string _refusal = "";
    private string _applied = "";
    private int _machineId;
    private string _downUntil = "";
    private string _downReason = "";
    private int _people = 1;
    private string _peopleMove = "missing";
    private string _peopleUntil = "";
    private int _ticketId;
    private string _ticketMove = "rush";
    private string _holdReason = "";

    [SupplyParameterFromQuery(Name = "ticket")]
    public string? TicketNumber { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required BoardState Board { get; set; }

    [Inject]
    public required PlanBook Plan { get; set; }

    [Inject]
    public required WhatIf Question { get; set; }

    [Inject]
    public required DutyDesk Desk { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    // Words, not true and false: a select cannot hold a truth.
    private bool Missing => _peopleMove == "missing";

    private bool Rush => _ticketMove == "rush";

    private DateTime Now => Clock.GetUtcNow().UtcDateTime;

    public void Dispose() => Board.Changed -= BoardChanged;

    protected override async Task OnInitializedAsync()
    {
        Board.Changed += BoardChanged;
        _room = await Rooms.GetAsync();
        _machineId = _room.Equipment.Count > 0 ? _room.Equipment[0].Id : 0;
        Look();
        _ticketId = _tickets.FirstOrDefault(t => t.Number == TrackingNumber.Read(TicketNumber ?? "").Number)?.Id ?? 0;
    }

    private void BoardChanged(IReadOnlyCollection<int> ids) => InvokeAsync(async () =>
    {
        _room = await Rooms.GetAsync();
        Look();
        StateHasChanged();
    });

    private void Look()
    {
        var open = Board.Now.Sheets.Values.Where(s => s.IsOpen).ToList();
        _tickets = [.. open.SelectMany(s => s.Tickets).DistinctBy(t => t.Id).OrderBy(t => t.DueUtc)];
        var now = Now;
        var rushed = (Plan.Now?.Live.Request.Tickets ?? []).Where(t => t.Weight >= Tickets.Orders.Ticket.RushWeight).Select(t => t.Id).ToList();
        var held = open.Where(s => s.State == SheetState.OnHold).SelectMany(s => s.Tickets.Select(t => (t.Id, s.HoldReason))).DistinctBy(t => t.Id).ToList();
        _inForce =
        [
            .. _room!.Downtimes.Where(d => d.ToUtc > now).DistinctBy(d => (d.EquipmentId, d.ToUtc)).Select(d => new InForce(
                $"{_room.EquipmentById(d.EquipmentId)!.Name} is down until {At(d.ToUtc)}{d.Because}", "It is in use again", () => Desk.SetUpAsync(d.EquipmentId, Viewer.Name))),
            .. _room.DutyChanges.Where(d => d.ToUtc > now && d.ToUtc > d.FromUtc).Select(d => new InForce(
                $"{PeopleText(d.People, d.FromUtc, d.ToUtc)}{Because(d.Reason)}", "Take back", () => Desk.EndPeopleChangeAsync(d.Id, Viewer.Name))),
            .. rushed.Select(id => new InForce($"{Name(id)} is rushed", "No hurry any more", () => Desk.RushAsync(id, rush: false, Viewer.Name))),
            .. held.Select(h => new InForce($"{Name(h.Id)} is on hold{Because(h.HoldReason)}", "Let it go on", () => Desk.GoOnAsync(h.Id, Viewer.Name))),
        ];
    }

    private async Task AddDown()
    {
        if (Time(_downUntil, "the machine") is not { } until || _room!.EquipmentById(_machineId) is not { } machine)
        {
            return;
        }

        var now = Now;
        await AddAsync(new DownMove($"{machine.Name} is down until {At(until)}", new Downtime(machine.Id, now, until), _downReason));
    }

    private async Task AddPeople()
    {
        if (Time(_peopleUntil, Missing ? "the missing operators" : "the overtime") is not { } until)
        {
            return;
        }

        if (_people is < 1 or > 50)
        {
            _refusal = "Say how many operators: 1 to 50.";
            return;
        }

        var from = Missing ? Now : WhatIf.ShiftEnd(_room!, Now);
        if (until <= from)
        {
            _refusal = $"The shift ends at {At(from)}: overtime must end later than that.";
            return;
        }

        var people = Missing ? -_people : _people;
        await AddAsync(new PeopleMove(PeopleText(people, from, until), new HeadcountChange(from, until, people), ""));
    }

    private async Task AddTicket()
    {
        if (_tickets.FirstOrDefault(t => t.Id == _ticketId) is not { } ticket)
        {
            _refusal = "Choose the ticket that is rushed or held.";
            return;
        }

        if (!Rush && _holdReason.Trim().Length == 0)
        {
            _refusal = "Say why the ticket is held: whoever finds its sheets will ask.";
            return;
        }

        await AddAsync(Rush ? new RushMove($"{Name(ticket.Id)} is rushed", ticket.Id) : new HoldMove($"{Name(ticket.Id)} is held{Because(_holdReason)}", ticket.Id, _holdReason));
    }

    private Task AddAsync(Move move)
    {
        (_refusal, _applied) = ("", "");
        _moves.Add(move);
        return AskAsync();
    }

    private Task RemoveAsync(Move move)
    {
        _moves.Remove(move);
        return AskAsync();
    }

    private Task ClearAsync()
    {
        _moves.Clear();
        return AskAsync();
    }

    private async Task AskAsync()
    {
        var question = ++_question;
        (_answer, _asking) = (null, _moves.Count > 0);
        if (!_asking)
        {
            return;
        }

        StateHasChanged();
        var (answer, refusal) = await AnswerAsync(_moves.Aggregate(new Scenario(), (s, m) => m.AddTo(s)));
        // Something was added or left out meanwhile: the newer question answers.
        if (question == _question)
        {
            (_answer, _refusal, _asking) = (answer, refusal, false);
        }
    }

    private async Task<(WhatIfAnswer? Answer, string Refusal)> AnswerAsync(Scenario scenario)
    {
        try
        {
            var answer = await Question.AskAsync(scenario);
            return (answer, answer is null ? "No sheet is open, so there is no plan to compare with." : "");
        }
        catch (PlanException)
        {
            return (null, "With this no plan is left: nobody would be there to do the work, or no machine for a stage. Leave something out.");
        }
    }

    private async Task ApplyAsync()
    {
        try
        {
            Viewer.Require(Right.ChangePlan);
            foreach (var move in _moves.ToList())
            {
                await move.ApplyAsync(Desk, Viewer.Name);
                _moves.Remove(move);
            }

            _applied = "Applied. The board and the stations follow the new plan in a moment.";
            _answer = null;
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }

        _room = await Rooms.GetAsync();
        Look();
    }

    private async Task EndAsync(InForce item)
    {
        try
        {
            Viewer.Require(Right.ChangePlan);
            await item.End();
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }

        _room = await Rooms.GetAsync();
        Look();
    }

    private DateTime? Time(string text, string what)
    {
        if (TimeOnly.TryParseExact(text.Trim(), ["HH:mm", "H:mm"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var time))
        {
            return SiteClock.Next(time, Now, _room!.Zone);
        }

        _refusal = text.Trim().Length == 0 ? $"Until when? Type the time for {what} like 14:00." : $"“{text}” is no time of day: type it like 14:00.";
        return null;
    }

    private string PeopleText(int people, DateTime from, DateTime to)
    {
        var who = Math.Abs(people) == 1 ? "1 operator" : $"{Math.Abs(people)} operators";
        return people < 0
            ? $"{who} {(people == -1 ? "is" : "are")} missing until {At(to)}"
            : $"{who} {(people == 1 ? "stays" : "stay")} from {At(from)} until {At(to)}";
    }

    private string Name(int ticketId) =>
        _tickets.FirstOrDefault(t => t.Id == ticketId) is { } ticket ? $"{TrackingNumber.ForPeople(ticket.Number)} {ticket.Customer}: {ticket.Title}" : "a ticket that is done";

    private string At(DateTime? utc) => utc is { } at ? SiteClock.Near(at, Now, _room!.Zone) : "–";

    private static string Because(string reason) => reason.Trim().Length == 0 ? "" : $": {reason.Trim()}";

    private static string Change(TicketShift shift) => shift.AfterUtc is not { } after
        ? "not planned until it goes on"
        : $"{Durations.ForPeople(Math.Round((after - shift.BeforeUtc).Duration().TotalMinutes) * 60)} {(after > shift.BeforeUtc ? "later" : "sooner")}";

    private sealed record InForce(string Text, string Button, Func<Task> End);
}

using PlateTickets.Planning.Scheduling;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations.Duty;

namespace PlateTickets.Web.Planning;

/// <summary>One part of a scenario: what it is in words, what it does to the question, and how it is really done.</summary>
internal abstract record Move(string Text)
{
    public abstract Scenario AddTo(Scenario scenario);

    public abstract Task ApplyAsync(DutyDesk desk, string by);
}

internal sealed record DownMove(string Text, Downtime Down, string Reason) : Move(Text)
{
    public override Scenario AddTo(Scenario scenario) => scenario with { Down = [.. scenario.Down, Down] };

    public override Task ApplyAsync(DutyDesk desk, string by) => desk.SetDownAsync(Down.EquipmentId, Down.FromUtc, Down.ToUtc, Reason, by);
}

internal sealed record PeopleMove(string Text, HeadcountChange Change, string Reason) : Move(Text)
{
    public override Scenario AddTo(Scenario scenario) => scenario with { People = [.. scenario.People, Change] };

    public override Task ApplyAsync(DutyDesk desk, string by) => desk.ChangePeopleAsync(Change.FromUtc, Change.ToUtc, Change.People, Reason, by);
}

internal sealed record RushMove(string Text, int TicketId) : Move(Text)
{
    public override Scenario AddTo(Scenario scenario) => scenario with { Rushed = [.. scenario.Rushed, TicketId] };

    public override Task ApplyAsync(DutyDesk desk, string by) => desk.RushAsync(TicketId, rush: true, by);
}

internal sealed record HoldMove(string Text, int TicketId, string Reason) : Move(Text)
{
    public override Scenario AddTo(Scenario scenario) => scenario with { Held = [.. scenario.Held, TicketId] };

    public override Task ApplyAsync(DutyDesk desk, string by) => desk.HoldAsync(TicketId, Reason, by);
}

internal sealed record UpMove(string Text, int EquipmentId) : Move(Text)
{
    public override Scenario AddTo(Scenario scenario) => scenario with { Up = [.. scenario.Up, EquipmentId] };

    public override Task ApplyAsync(DutyDesk desk, string by) => desk.SetUpAsync(EquipmentId, by);
}

internal sealed record InTurnMove(string Text, int TicketId) : Move(Text)
{
    public override Scenario AddTo(Scenario scenario) => scenario with { InTurn = [.. scenario.InTurn, TicketId] };

    public override Task ApplyAsync(DutyDesk desk, string by) => desk.RushAsync(TicketId, rush: false, by);
}

/// <summary>Sheets on hold are in no plan, so nothing can be said of them before they are back in it.</summary>
internal sealed record GoOnMove(string Text, int TicketId) : Move(Text)
{
    public override Scenario AddTo(Scenario scenario) => scenario;

    public override Task ApplyAsync(DutyDesk desk, string by) => desk.GoOnAsync(TicketId, by);
}

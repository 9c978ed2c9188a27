using System.Collections.Immutable;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Stations;

namespace PlateTickets.Web.Tests.Stations;

/// <summary>Why a sheet stands where it does in the list of a machine.</summary>
public sealed class NextReasonsTests
{
    private static readonly DateTime Eight = new(2026, 11, 25, 8, 0, 0, DateTimeKind.Utc);

    [Fact]
    public void InOrderOfDueBy_EachComesAfterTheOneAbove() =>
        Assert.Equal(["Earliest due-by here", "Its due-by comes after the one above"], Why(Sheet(1, start: 0, dueBy: 60), Sheet(2, start: 30, dueBy: 90)));

    [Theory]
    // The one that is due earlier would be late either way.
    [InlineData(30, 20, null, "Before one with an earlier due-by, so that less is late in all")]
    // It is done by its due-by although it waits.
    [InlineData(30, 70, null, "What is due earlier is still in time after it")]
    // It rests until after the first one's start.
    [InlineData(30, 20, 10, "What is due earlier is not ready yet")]
    [InlineData(30, 20, 0, "Before one with an earlier due-by, so that less is late in all")]
    public void BeforeOneThatIsDueEarlier_SaysWhyThatOneIsPassedOver(int start, int dueBy, int? ready, string why) =>
        Assert.Equal(why, Why(Sheet(1, start: 0, dueBy: 300), Sheet(2, start, dueBy, ready))[0]);

    [Fact]
    public void WithoutADueBy_ThePlanFitsItIn() =>
        Assert.Equal("The plan fits it in here", Why(Sheet(1, start: 0, dueBy: null), Sheet(2, start: 30, dueBy: 40))[0]);

    [Fact]
    public void BehindTheEarliest_ButBeforeAnother_SaysWhyThatOneIsPassedOver() =>
        Assert.Equal("What is due earlier is still in time after it", Why(Sheet(1, start: 0, dueBy: 60), Sheet(2, start: 30, dueBy: 300), Sheet(3, start: 60, dueBy: 100))[1]);

    [Fact]
    public void WithoutAPlan_ItSaysSo()
    {
        var sheet = Sheet(1, start: 0, dueBy: 300);
        var unplanned = sheet with { Stage = sheet.Stage! with { PlannedStartUtc = null, PlannedFinishUtc = null } };
        Assert.Equal("Not planned yet", Why(unplanned, Sheet(2, start: 30, dueBy: 20))[0]);
    }

    private static List<string> Why(params BoardSheet[] waiting)
    {
        var machine = new Equipment { Id = 1, Name = "Frame", Slug = "frame", Kind = EquipmentKind.Single };
        var board = new BoardSnapshot(waiting.ToImmutableDictionary(s => s.Id));
        return [.. NextReasons.Of(waiting, 5, [], machine, board).Select(n => n.Why)];
    }

    // Minutes from eight; each takes half an hour.
    private static BoardSheet Sheet(int id, int start, int? dueBy, int? ready = null) => new()
    {
        Id = id,
        Number = $"S{id}",
        State = SheetState.Waiting,
        Material = "Soft",
        Tickets = [new BoardTicket(id, $"T{id}", "Somebody", "Label", "Press", Eight.AddHours(9))],
        Colours = ["Cyan"],
        Plates = 1,
        RecipeRevisionId = 1,
        Stage = new BoardStage(id, Station.FaceExposure, StageState.Waiting, 1, Eight.AddMinutes(start), Eight.AddMinutes(start + 30), dueBy is { } by ? Eight.AddMinutes(by) : null, null, 0, 1800, 0),
        ReadyUtc = ready is { } at ? Eight.AddMinutes(at) : null,
        PlannedDoneUtc = null,
        LastDueByUtc = null,
        DoneUtc = null,
        HoldReason = "",
    };
}

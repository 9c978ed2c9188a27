using PlateTickets.Process;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stations.Duty;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Timeline;

/// <summary>Makes the rows of the timeline out of stages and the sheets of the board.</summary>
internal sealed record BarMaker(Room Room, IReadOnlyDictionary<int, BoardSheet> Sheets, TimelineScale Scale, DateTime NowUtc, IReadOnlySet<int> Found)
{
    // The label's typeface has one width for all characters: what fits can be counted. 12 px high, with a little to spare.
    private const double PxPerCharacter = 7.8;
    private const double PxAround = 8;

    public TimelineRowModel Row(Equipment machine, IEnumerable<TimelineStage> stages)
    {
        var shown = stages
            .Where(s => Sheets.ContainsKey(s.SheetId) && s.StartUtc < Scale.ToUtc && s.FinishUtc > Scale.FromUtc)
            .OrderBy(s => s.StartUtc).ThenBy(s => s.FinishUtc).ThenBy(s => s.Id)
            .ToList();
        var lanes = Lanes.Assign([.. shown.Select(s => (s.StartUtc, s.FinishUtc))]);
        return new(machine.Id, machine.Name, lanes.DefaultIfEmpty(0).Max() + 1, Scale, [.. shown.Select((s, i) => Bar(machine, s, Sheets[s.SheetId], lanes[i]))])
        {
            Down = [.. Room.Downtimes.Where(d => d.EquipmentId == machine.Id && d.FromUtc < d.ToUtc && d.FromUtc < Scale.ToUtc && d.ToUtc > Scale.FromUtc).Select(Down)],
        };
    }

    private TimelineDown Down(EquipmentDowntime down)
    {
        var (from, to) = (Math.Max(0, Scale.X(down.FromUtc)), Math.Min(Scale.Width, Scale.X(down.ToUtc)));
        return new TimelineDown(from, to - from, $"down until {Near(down.ToUtc)}{down.Because}");
    }

    private TimelineBar Bar(Equipment machine, TimelineStage stage, BoardSheet sheet, int lane)
    {
        var shape = BarShape.Of(stage, lane, Scale);
        var lateness = LatenessRules.Of(sheet, NowUtc);
        var number = TrackingNumber.ForPeople(sheet.Number);
        var latenessText = sheet.DoneUtc is null ? LatenessMark.TextOf(lateness, sheet.DueUtc - sheet.PlannedDoneUtc, sheet.LateChance) : "Sheet is done";
        var state = stage.State switch { StageState.Done => "done", StageState.Running => "running", _ => "planned" };
        var when = $"{Near(stage.StartUtc)} to {Near(stage.FinishUtc)}";
        return new()
        {
            StageId = stage.Id,
            Sheet = sheet.Number,
            State = stage.State,
            Lateness = lateness,
            Found = Found.Contains(sheet.Id),
            Lane = lane,
            Shape = shape,
            Label = Label(shape.RunWidth, number, stage.State, lateness),
            // What is written in the bar comes first, word for word: who speaks to the computer says what can be read.
            Spoken = $"{string.Join(' ', number, Word(lateness)).TrimEnd()}: {stage.Station.Title().ToLowerInvariant()}, {state}, {when}. {latenessText}.",
            Tickets = string.Join('\n', sheet.Tickets.Select(t => $"{t.Number}\t{t.Customer}: {t.Title}")),
            What = $"{stage.Station.Title()} on {machine.Name}, {state}",
            When = $"{when} ({Durations.ForPeople((stage.FinishUtc - stage.StartUtc).TotalSeconds)})",
            DueBy = stage.DueByUtc is { } dueBy ? Near(dueBy) : "–",
            Slack = SlackText(stage.Slack),
            LatenessText = latenessText,
        };
    }

    /// <summary>The longest of the wordings that fits whole.</summary>
    private static string Label(double width, string number, StageState state, Lateness lateness)
    {
        var name = state == StageState.Done ? "✓ " + number : number;
        var word = Word(lateness);
        string[] wordings = word.Length > 0 ? [$"{name} {word}", word] : [name];
        return wordings.FirstOrDefault(w => (w.Length * PxPerCharacter) + PxAround <= width) ?? "";
    }

    private static string Word(Lateness lateness) => lateness switch
    {
        Lateness.Late => "late",
        Lateness.AtRisk => "at risk",
        _ => "",
    };

    private static string SlackText(TimeSpan? slack) => slack switch
    {
        null => "–",
        { } late when late < TimeSpan.Zero => $"none: {Minutes(-late)} too late",
        { } spare => Minutes(spare),
    };

    private static string Minutes(TimeSpan time) => time.TotalMinutes < 1 ? "under a minute" : Durations.ForPeople(Math.Round(time.TotalMinutes) * 60);

    private string Near(DateTime utc) => SiteClock.Near(utc, NowUtc, Room.Zone);
}

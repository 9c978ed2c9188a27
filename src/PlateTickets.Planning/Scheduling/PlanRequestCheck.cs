using System.Globalization;

namespace PlateTickets.Planning.Scheduling;

/// <summary>Refuses a request that no plan can be made of, in a sentence that says what is wrong, where, and what to do.</summary>
internal static class PlanRequestCheck
{
    public static void Refuse(PlanRequest request)
    {
        if (request.NowUtc.Kind != DateTimeKind.Utc)
        {
            throw new PlanException("The plan counts in UTC, but its present time has no UTC kind: convert it from the site's time zone first.");
        }

        var machines = new HashSet<int>();
        foreach (var equipment in request.Equipment)
        {
            if (!machines.Add(equipment.Id))
            {
                throw Bad($"Machine {equipment.Id} is listed twice: list every machine once.");
            }

            if (equipment.Kind == EquipmentKind.Slots && equipment.Slots < 1)
            {
                throw Bad($"Machine {equipment.Id} has {equipment.Slots} slots: give it at least one, or take it out of use.");
            }

            if (equipment.Changeover < TimeSpan.Zero)
            {
                throw Bad($"Machine {equipment.Id} has a changeover of less than nothing: give it 0 or more.");
            }
        }

        var sheets = new HashSet<int>();
        var stages = new HashSet<int>();
        foreach (var sheet in request.Sheets)
        {
            if (!sheets.Add(sheet.Id))
            {
                throw Bad($"Sheet {sheet.Id} is listed twice: list every sheet once.");
            }

            Refuse(sheet, machines, stages);
        }

        RefuseTickets(request, sheets);
        RefuseDowntime(request, machines);
        if (request.Operators is { Count: 0 })
        {
            throw new PlanException("The plan counts operators, but there is none: give at least one, or do not count them.");
        }
    }

    private static void RefuseTickets(PlanRequest request, HashSet<int> sheets)
    {
        var tickets = new HashSet<int>();
        foreach (var ticket in request.Tickets)
        {
            if (!tickets.Add(ticket.Id))
            {
                throw Bad($"Ticket {ticket.Id} is listed twice: list every ticket once.");
            }

            if (!(ticket.Weight > 0) || double.IsInfinity(ticket.Weight))
            {
                throw Bad($"Ticket {ticket.Id} has a weight of {ticket.Weight}: give it a number above 0; 1 is usual.");
            }

            if (ticket.DueUtc.Kind != DateTimeKind.Utc)
            {
                throw Bad($"The due time of ticket {ticket.Id} has no UTC kind: convert it from the site's time zone first.");
            }

            if (ticket.SheetIds.Where(id => !sheets.Contains(id)).Select(id => (int?)id).FirstOrDefault() is { } unknown)
            {
                throw Bad($"Ticket {ticket.Id} waits for sheet {unknown}, which is not in the plan: leave out the ticket, or add the sheet.");
            }
        }
    }

    private static void RefuseDowntime(PlanRequest request, HashSet<int> machines)
    {
        foreach (var down in request.Downtime)
        {
            if (!machines.Contains(down.EquipmentId))
            {
                throw Bad($"Machine {down.EquipmentId} is said to be down, but the room does not have it: check the downtime.");
            }

            if (down.FromUtc.Kind != DateTimeKind.Utc || down.ToUtc.Kind != DateTimeKind.Utc)
            {
                throw Bad($"A downtime of machine {down.EquipmentId} has no UTC kind: convert it from the site's time zone first.");
            }

            if (down.ToUtc <= down.FromUtc)
            {
                throw Bad($"A downtime of machine {down.EquipmentId} ends at {down.ToUtc:u}, not after its begin at {down.FromUtc:u}: swap the two.");
            }
        }
    }

    private static void Refuse(PlanSheet sheet, HashSet<int> machines, HashSet<int> stages)
    {
        if (!(sheet.Weight > 0) || double.IsInfinity(sheet.Weight))
        {
            throw Bad($"Sheet {sheet.Id} has a weight of {sheet.Weight}: give it a number above 0; 1 is usual.");
        }

        if (sheet.ReadyUtc.Kind != DateTimeKind.Utc || sheet.DueUtc.Kind != DateTimeKind.Utc)
        {
            throw Bad($"The ready or due time of sheet {sheet.Id} has no UTC kind: convert it from the site's time zone first.");
        }

        for (var i = 0; i < sheet.Stages.Count; i++)
        {
            var stage = sheet.Stages[i];
            if (!stages.Add(stage.Id))
            {
                throw Bad($"Stage {stage.Id} of sheet {sheet.Id} is listed twice: list every stage once.");
            }

            if (stage.Options.Count == 0)
            {
                throw Bad($"Stage {stage.Id} of sheet {sheet.Id} has no machine that could do it: add one, or change the recipe's route.");
            }

            if (stage.Options.FirstOrDefault(o => !machines.Contains(o.EquipmentId)) is { } unknown)
            {
                throw Bad($"Stage {stage.Id} of sheet {sheet.Id} asks for machine {unknown.EquipmentId}, which the room does not have: add it, or choose another.");
            }

            if (stage.LeastWaitAfter < TimeSpan.Zero || stage.LongestWaitAfter < TimeSpan.Zero || stage.Options.Any(o => Least(o) < TimeSpan.Zero))
            {
                throw Bad($"Stage {stage.Id} of sheet {sheet.Id} has a time of less than nothing: check the recipe's times.");
            }

            Refuse(sheet, i, stage);
        }
    }

    private static void Refuse(PlanSheet sheet, int at, PlanStage stage)
    {
        if (stage.Running is not { } running)
        {
            return;
        }

        if (at > 0)
        {
            throw Bad($"Stage {stage.Id} of sheet {sheet.Id} is running although an earlier one is not finished: record the earlier one first.");
        }

        if (stage.Options.All(o => o.EquipmentId != running.EquipmentId))
        {
            throw Bad($"Stage {stage.Id} of sheet {sheet.Id} runs on machine {running.EquipmentId}, but no times for it are given there: give them, or correct the scan.");
        }

        if (running.StartedUtc.Kind != DateTimeKind.Utc)
        {
            throw Bad($"The start of stage {stage.Id} of sheet {sheet.Id} has no UTC kind: convert it from the site's time zone first.");
        }
    }

    private static TimeSpan Least(StageOption o) =>
        TimeSpan.FromTicks(Math.Min(Math.Min(o.Load.Ticks, o.Run.Ticks), Math.Min(o.Unload.Ticks, o.EntrySpacing.Ticks)));

    private static PlanException Bad(FormattableString sentence) => new(sentence.ToString(CultureInfo.InvariantCulture));
}

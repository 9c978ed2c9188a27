namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>A draft as the plan that everybody sees.</summary>
internal static class Published
{
    public static Plan Plan(Shop shop, Draft draft)
    {
        var stages = new PlannedStage[shop.Ops];
        for (var op = 0; op < shop.Ops; op++)
        {
            var (sheet, stage) = (shop.Sheets[shop.JobOf[op]], shop.StageOf(op));
            var machine = shop.Ways[draft.Way[op]].Machine;
            var finish = shop.Instant(draft.Finish[op]);
            if (stage.Running is not null && draft.Finish[op] == shop.Now)
            {
                // An overdue stage finishes now, not at the full second after now.
                finish = shop.Request.NowUtc;
            }

            stages[op] = new PlannedStage(
                sheet.Id, stage.Id, shop.Request.Equipment[machine].Id, stage.Running?.StartedUtc ?? shop.Instant(draft.Start[op]), finish,
                new DateTime(shop.DueBy[op], DateTimeKind.Utc))
            { Slot = Math.Max(0, draft.Unit[op] - shop.Machines[machine].FirstUnit) };
        }

        var token = new int[shop.Jobs];
        return new Plan(stages)
        {
            Cost = draft.Cost,
            Order = [.. draft.Order.Select(job => shop.StageOf(shop.FirstOp[job] + token[job]++).Id)],
            OnAnyMachine = Enumerable.Range(0, shop.Ops).Where(op => draft.Choice[op] < 0 && shop.FirstWay[op + 1] - shop.FirstWay[op] > 1).Select(op => shop.StageOf(op).Id).ToHashSet(),
        };
    }
}

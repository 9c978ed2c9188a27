namespace PlateTickets.Planning.Scheduling;

/// <summary>One run of the dispatcher. A sheet has one next stage at a time; its best placement is kept until the machine of that placement is booked.</summary>
internal sealed class Dispatch
{
    private readonly PlanRequest _request;
    private readonly IntervalSet _working;
    private readonly long _now;
    private readonly Dictionary<int, int> _machineOf = [];
    private readonly Machine[] _machines;
    private readonly SheetQueue[] _sheets;
    private readonly List<PlannedStage> _planned = [];

    public Dispatch(PlanRequest request)
    {
        _request = request;
        _working = request.Working.Set;
        _now = request.NowUtc.Ticks;
        _machines = [.. request.Equipment.Select(e => Machine.Of(e, _working, _now))];
        for (var i = 0; i < _machines.Length; i++)
        {
            _machineOf.Add(request.Equipment[i].Id, i);
        }

        _sheets = [.. request.Sheets.Where(s => s.Stages.Count > 0).Select(s => new SheetQueue(s, DueBy.Ticks(s, _working), _now))];
    }

    public Plan Run()
    {
        Freeze();
        var waiting = _sheets.Where(s => !s.Done).ToList();
        foreach (var sheet in waiting)
        {
            Look(sheet);
        }

        while (waiting.Count > 0)
        {
            var next = DispatchRule.Next(waiting);
            var machine = next.Machine;
            _machines[machine].Book(next.Work, next.Best);
            Record(next);
            if (next.Done)
            {
                waiting.Remove(next);
            }
            else
            {
                Look(next);
            }

            // What other machines offer has not changed, and this one offers nothing earlier than before.
            foreach (var sheet in waiting)
            {
                if (sheet.Machine == machine && sheet != next)
                {
                    Look(sheet);
                }
            }
        }

        return new Plan(_planned);
    }

    // In the order of their starts, so that a line knows which recipe entered last.
    private void Freeze()
    {
        foreach (var sheet in _sheets.Where(s => s.Stage.Running is not null).OrderBy(s => s.Stage.Running!.StartedUtc))
        {
            var running = sheet.Stage.Running!;
            sheet.Machine = _machineOf[running.EquipmentId];
            sheet.Work = Work.Of(sheet.Stage.Options.First(o => o.EquipmentId == running.EquipmentId), sheet.Sheet.RecipeId);
            var finish = ExpectedFinish(sheet.Work, running.StartedUtc.Ticks);
            sheet.Best = finish < 0 ? throw Unplaced.Because(_request, sheet) : new Placement(running.StartedUtc.Ticks, finish);
            _machines[sheet.Machine].Book(sheet.Work, sheet.Best);
            Record(sheet);
        }
    }

    private long ExpectedFinish(Work work, long started)
    {
        var unload = _working.EarliestStart(started + work.Load + work.Run, work.Unload);
        if (unload >= 0 && unload + work.Unload < _now)
        {
            // Overdue: somebody who is there is about to take it out; at night it lies there until the next shift.
            unload = _working.Contains(_now) || work.Unload == 0 ? _now - work.Unload : _working.EarliestStart(_now, work.Unload);
        }

        return unload < 0 ? -1 : unload + work.Unload;
    }

    private void Look(SheetQueue sheet)
    {
        sheet.Best = Placement.None;
        foreach (var option in sheet.Stage.Options)
        {
            var machine = _machineOf[option.EquipmentId];
            var work = Work.Of(option, sheet.Sheet.RecipeId);
            var placement = _machines[machine].Earliest(work, sheet.Ready);
            if (placement.Fits && (!sheet.Best.Fits || (placement.Finish, placement.Start).CompareTo((sheet.Best.Finish, sheet.Best.Start)) < 0))
            {
                (sheet.Best, sheet.Machine, sheet.Work) = (placement, machine, work);
            }
        }

        if (!sheet.Best.Fits)
        {
            throw Unplaced.Because(_request, sheet);
        }
    }

    private void Record(SheetQueue sheet)
    {
        _planned.Add(new PlannedStage(
            sheet.Sheet.Id, sheet.Stage.Id, _request.Equipment[sheet.Machine].Id,
            Instant(sheet.Best.Start), Instant(sheet.Best.Finish), Instant(sheet.DueBy)));
        sheet.Advance();
    }

    private static DateTime Instant(long ticks) => new(ticks, DateTimeKind.Utc);
}

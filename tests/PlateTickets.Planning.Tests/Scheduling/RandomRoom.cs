using CsCheck;
using PlateTickets.Planning.Scheduling;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

/// <summary>Rooms with all kinds of machines, shared ones too, sheets before and within their route, and both calendars.</summary>
internal static class RandomRoom
{
    private static readonly Gen<PlanEquipment> Machines = Gen.Select(Gen.Int[1, 3], Gen.Int[1, 4], Gen.Int[0, 40])
        .Select((kind, slots, changeover) => new PlanEquipment(0, (EquipmentKind)kind, slots, Min(changeover)));

    private static readonly Gen<StageOption> Options = Gen.Select(Gen.Int[0, 99], Gen.Int[0, 20], Gen.Int[1, 400], Gen.Int[0, 20], Gen.Int[0, 30])
        .Select((machine, load, run, unload, spacing) => On(machine, load, run, unload, spacing));

    // How long ago a first stage was begun; below 1 it has not been begun.
    private static readonly Gen<(StageOption[] Options, int Wait, int Ago)> Stages =
        Gen.Select(Options.Array[1, 3], Gen.Int[0, 120], Gen.Int[-300, 600]);

    private static readonly Gen<(int Ready, int Due, double Weight, int Recipe, (StageOption[] Options, int Wait, int Ago)[] Stages)> Sheets =
        Gen.Select(Gen.Int[-500, 1500], Gen.Int[-500, 9000], Gen.Double[0.5, 3], Gen.Int[1, 3], Stages.Array[1, 5]);

    public static readonly Gen<PlanRequest> Requests = Gen.Select(Machines.Array[1, 6], Sheets.Array[0, 14], Gen.Int[0, 1439], Gen.Bool)
        .Select((machines, sheets, now, shifts) => Request(machines, sheets, At(0, now), shifts ? EarlyShift : Always));

    /// <summary>The same with sets, counted operators, machines that go down and stages that must follow each other soon.</summary>
    public static readonly Gen<PlanRequest> FullRequests = Gen.Select(
        Requests, Gen.Int[0, 3], Gen.Select(Gen.Int[0, 5], Gen.Int[-300, 900], Gen.Int[1, 600]).Array[0, 4], Gen.Int[0, 400].Array[8], Gen.Int[1, 4])
        .Select((request, people, downs, waits, set) => request with
        {
            Operators = people == 0 ? null : [.. Enumerable.Range(0, people).Select(i => i == 2 ? EarlyShift : request.Working)],
            Downtime = [.. downs.Where(d => d.Item1 < request.Equipment.Count)
                .Select(d => new Downtime(d.Item1, request.NowUtc.AddMinutes(d.Item2), request.NowUtc.AddMinutes(d.Item2 + d.Item3)))],
            Sheets = [.. request.Sheets.Select(s => s with { Stages = [.. s.Stages.Select(t => Soon(t, waits[t.Id % 8]))] })],
            Tickets = [.. request.Sheets.Chunk(set).Skip(1).Select((c, i) => new PlanTicket(i, c[0].DueUtc, c[0].Weight, [.. c.Select(s => s.Id), request.Sheets[0].Id]))],
        });

    private static PlanStage Soon(PlanStage stage, int wait) => wait < 200 ? stage with { LongestWaitAfter = Min(wait) } : stage;

    private static PlanRequest Request(
        PlanEquipment[] machines,
        (int Ready, int Due, double Weight, int Recipe, (StageOption[] Options, int Wait, int Ago)[] Stages)[] sheets,
        DateTime now, WorkingTime working)
    {
        var made = sheets.Select((s, i) => new PlanSheet(
            i, now.AddMinutes(s.Ready), now.AddMinutes(s.Due), s.Weight, s.Recipe,
            [.. s.Stages.Select((t, k) => StageOf(t, (10 * i) + k, machines.Length, now, first: k == 0))]));
        return new PlanRequest(now, [.. machines.Select((m, i) => m with { Id = i })], [.. made], working);
    }

    private static PlanStage StageOf((StageOption[] Options, int Wait, int Ago) stage, int id, int machines, DateTime now, bool first)
    {
        var options = stage.Options.Select(o => o with { EquipmentId = o.EquipmentId % machines }).DistinctBy(o => o.EquipmentId).ToList();
        var running = first && stage.Ago > 0 ? new RunningStage(options[0].EquipmentId, now.AddMinutes(-stage.Ago)) : null;
        return new PlanStage(id, options, Min(stage.Wait), running);
    }
}

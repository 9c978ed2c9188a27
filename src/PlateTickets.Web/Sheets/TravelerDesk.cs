using System.Globalization;
using Microsoft.Extensions.Options;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Travelers;
using PlateTickets.Web.Startup;

namespace PlateTickets.Web.Sheets;

/// <summary>Fills the traveler of a sheet from the records and has it printed.</summary>
public sealed class TravelerDesk(SheetQueries sheets, RoomCatalog rooms, IOptions<PlateRoomOptions> options, TimeProvider clock)
{
    /// <summary>The PDF, or null when there is no such sheet. Counts the print: every later one carries a reprint mark.</summary>
    public async Task<byte[]?> PrintAsync(string sheetNumber, TravelerPaper paper, CancellationToken cancel)
    {
        var view = await sheets.FindAsync(sheetNumber, cancel);
        if (view is null)
        {
            return null;
        }

        return TravelerPdf.Render(await ContentAsync(view, cancel), paper);
    }

    /// <summary>The travelers of all sheets that were released together, in one PDF; null when there is no such layout or it was undone.</summary>
    public async Task<byte[]?> PrintLayoutAsync(int layoutId, TravelerPaper paper, CancellationToken cancel)
    {
        var contents = new List<TravelerContent>();
        foreach (var view in await sheets.OfLayoutAsync(layoutId, cancel))
        {
            contents.Add(await ContentAsync(view, cancel));
        }

        return contents.Count == 0 ? null : TravelerPdf.Render(contents, paper);
    }

    /// <summary>Labels of a machine's drawers; null when there is no such machine or it has none.</summary>
    public async Task<byte[]?> PrintDrawersAsync(string slug, TravelerPaper paper, CancellationToken cancel) =>
        (await rooms.GetAsync(cancel)).EquipmentBySlug(slug) is { Kind: EquipmentKind.Slots } machine
            ? DrawerLabelsPdf.Render(
                machine.Name,
                [.. Enumerable.Range(1, machine.Slots).Select(d => LabelOf(machine, d))],
                paper)
            : null;

    private static DrawerLabel LabelOf(Equipment machine, int drawer)
    {
        var number = Drawers.NumberOf(machine.Id, drawer);
        return new(number, TrackingNumber.ForPeople(number), $"Drawer {drawer}");
    }

    private async Task<TravelerContent> ContentAsync(SheetView view, CancellationToken cancel)
    {
        if (view.Orders.Count == 0)
        {
            throw new PlateRoomException($"The layout of sheet {TrackingNumber.ForPeople(view.Sheet.Number)} was undone: its plates wait for another sheet, so it has no traveler.");
        }

        var before = await sheets.CountPrintAsync(view.Sheet.Number, "PlateTickets", cancel);
        return Content(view, await rooms.GetAsync(cancel), before);
    }

    private TravelerContent Content(SheetView view, Room room, int printsBefore)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        var sheet = view.Sheet;
        var stages = sheet.Stages.OrderBy(s => s.Station).ToList();
        return new TravelerContent
        {
            SheetNumber = sheet.Number,
            SheetNumberForPeople = TrackingNumber.ForPeople(sheet.Number),
            Qr = options.Value.Address is { Length: > 0 } address ? address.TrimEnd('/') + Urls.Sheet(sheet.Number) : sheet.Number,
            SiteName = room.Site.Name,
            Material = sheet.Material!.Label(room.Site.Units),
            SheetSize = Size(room, sheet.WidthUm, sheet.LengthUm),
            Recipe = $"{sheet.Material.Name}, revision {sheet.RecipeRevision!.Number}",
            Due = SiteClock.MomentWithYear(view.DueUtc, room.Zone),
            PrintedAt = $"{SiteClock.MomentWithYear(now, room.Zone)} ({room.Zone.Id})",
            ReprintNumber = printsBefore,
            SetPosition = SetPosition(view),
            Tickets = [.. view.Orders.Select(o => new TravelerTicket(
                TrackingNumber.ForPeople(o.Number), o.Customer!.Name, o.Ticket!.State == TicketState.Cancelled ? $"CANCELLED, its plates are waste: {o.Title}" : o.Title, o.Press!.Name, SiteClock.Moment(o.DueUtc, room.Zone)))],
            Layout = new TravelerLayout(
                sheet.WidthUm / 1000.0, sheet.LengthUm / 1000.0,
                $"{room.Site.Units.Show(sheet.WidthUm / 1000.0)} along the drum axis", $"{room.Site.Units.Show(sheet.LengthUm / 1000.0)} around the drum",
                [.. sheet.Placements.Select(p => Plate(p, view, room))]),
            Stock = CutText.Stock(view, room.Site.Units),
            Cuts = CutText.Cuts(sheet, room.Site.Units),
            Stages = [.. stages.Select(s => Stage(s, sheet, room, now))],
            ClosingCautions = [Cautions.Closing],
            Flags = [.. stages.Where(s => s.State != StageState.Done).SelectMany(s => s.Flags.Split('\n', StringSplitOptions.RemoveEmptyEntries)).Distinct()],
        };
    }

    private static string SetPosition(SheetView view) => string.Join("; ", view.Orders
        .Where(o => view.SetPosition[o.Id].Count > 1)
        .Select(o => $"Sheet {view.SetPosition[o.Id].Position} of {view.SetPosition[o.Id].Count} of ticket {TrackingNumber.ForPeople(o.Number)}"));

    private static TravelerPlate Plate(Placement placement, SheetView view, Room room)
    {
        var plate = placement.Plate!;
        var colour = plate.Separation!.Colour;
        var order = view.Orders.Single(o => o.Id == plate.TicketId);
        var label = order.Copies > 1 ? $"{colour} (copy {plate.Copy})" : colour;
        return new TravelerPlate(
            placement.Mark.ToString(CultureInfo.InvariantCulture),
            plate.OutOfSet ? $"WASTE: {label}" : label,
            ColourNames.SwatchRgb(colour), TrackingNumber.ForPeople(order.Number), Size(room, plate.WidthUm, plate.LengthUm), placement.Rotated,
            placement.XUm / 1000.0, placement.YUm / 1000.0, placement.WidthUm / 1000.0, placement.LengthUm / 1000.0);
    }

    private static TravelerStage Stage(Stage stage, Sheet sheet, Room room, DateTime now)
    {
        var recipe = room.Revisions[sheet.RecipeRevisionId].Settings;
        var machine = room.EquipmentById(stage.EquipmentId) ?? room.For(stage.Station, recipe).First();
        var (time, refusal) = StageTiming.TryCompute(room, sheet, stage.Station, machine, now);
        var done = stage.State == StageState.Done;
        return new TravelerStage(
            stage.Station.Title(), machine.Name + (machine.Kind == EquipmentKind.Slots ? $" ({machine.Slots} drawers)" : ""),
            [.. (time?.Settings ?? []).Select(s => (s.Name, s.Value))],
            done || time is null ? Durations.ForPeople(stage.RunSeconds) : Durations.ForPeople(time.RunSeconds),
            done ? stage.Explanation : time?.Explanation ?? refusal!,
            stage.PlannedStartUtc is { } start && stage.PlannedFinishUtc is { } finish
                ? $"{SiteClock.Near(start, start.AddDays(-2), room.Zone)} – {SiteClock.Near(finish, start, room.Zone)}"
                : "not planned yet",
            stage.DueByUtc is { } dueBy ? SiteClock.Moment(dueBy, room.Zone) : "not planned yet",
            Cautions.ReadingFor(stage.Station, room.Site.Units), [.. Cautions.For(stage.Station, recipe.Washout.Process).Select(c => c.Line)],
            stage.FinishedUtc is { } finished ? $"Done {SiteClock.Moment(finished, room.Zone)}, {stage.FinishedBy}" : null);
    }

    private static string Size(Room room, int widthUm, int lengthUm) => room.Site.Units.Size(widthUm / 1000.0, lengthUm / 1000.0);
}

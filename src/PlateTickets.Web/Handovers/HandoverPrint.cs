using PlateTickets.Tickets.Handovers;
using PlateTickets.Tickets.Stations;
using PlateTickets.Travelers;

namespace PlateTickets.Web.Handovers;

/// <summary>Prints a closed handover.</summary>
public sealed class HandoverPrint(HandoverDesk desk, RoomCatalog rooms, TimeProvider clock)
{
    /// <summary>The PDF; null when there is no such handover or it is not closed.</summary>
    public async Task<byte[]?> PrintAsync(int id, TravelerPaper paper, CancellationToken cancel)
    {
        if (await desk.FindAsync(id, cancel) is not { State: not HandoverState.Draft, Facts: { } facts } handover)
        {
            return null;
        }

        var room = await rooms.GetAsync(cancel);
        return HandoverPdf.Render(
            new HandoverContent
            {
                SiteName = room.Site.Name,
                Title = HandoverText.Title(handover.ShiftName, handover.StartUtc, handover.EndUtc, room.Zone),
                Signed = HandoverText.Signed(handover, room.Zone),
                Notes = handover.Notes,
                Remark = handover.Remark.Length == 0 ? "" : $"Remark of {handover.ConfirmedBy}: {handover.Remark}",
                AsOf = $"The room as it was at {SiteClock.MomentWithYear(facts.AtUtc, room.Zone)}",
                PrintedAt = $"{SiteClock.MomentWithYear(clock.GetUtcNow().UtcDateTime, room.Zone)} ({room.Zone.Id})",
                Sections = [.. HandoverText.Sections(facts, room.Zone).Select(s => new HandoverTable(
                    s.Title, s.Columns, [.. s.Rows.Select(r => (IReadOnlyList<string>)[.. r.Select(c => c.Text)])], s.Nothing, s.More))],
            },
            paper);
    }
}

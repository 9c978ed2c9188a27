using PlateTickets.Tickets.Board;

namespace PlateTickets.Web.Timeline;

/// <summary>The stages that a timeline knows, by sheet.</summary>
internal sealed class StageBook
{
    private readonly Dictionary<int, List<TimelineStage>> _bySheet = [];

    public IEnumerable<TimelineStage> All => _bySheet.Values.SelectMany(s => s);

    /// <summary>Puts what was read in the place of what was known of these sheets.</summary>
    /// <returns>The machines that lost, got or changed a bar.</returns>
    public HashSet<int> Put(IReadOnlyCollection<int> sheetIds, IEnumerable<TimelineStage> read)
    {
        var touched = new HashSet<int>();
        foreach (var id in sheetIds)
        {
            if (_bySheet.Remove(id, out var known))
            {
                touched.UnionWith(known.Select(s => s.EquipmentId));
            }
        }

        foreach (var sheet in read.GroupBy(s => s.SheetId))
        {
            _bySheet[sheet.Key] = [.. sheet];
            touched.UnionWith(sheet.Select(s => s.EquipmentId));
        }

        return touched;
    }

    /// <summary>Forgets the stages that finished before an instant.</summary>
    public void ForgetFinishedBefore(DateTime utc)
    {
        foreach (var (sheet, stages) in _bySheet.ToList())
        {
            stages.RemoveAll(s => s.State == Tickets.Sheets.StageState.Done && s.FinishUtc < utc);
            if (stages.Count == 0)
            {
                _bySheet.Remove(sheet);
            }
        }
    }
}

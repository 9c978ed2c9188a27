using System.Collections.Immutable;

namespace PlateTickets.Web.Layouts;

/// <summary>The layout at one moment: its sheets, and the plates that nobody may move.</summary>
public sealed record DraftState(ImmutableList<DraftSheet> Sheets, ImmutableHashSet<int> Locked)
{
    public static DraftState Empty { get; } = new([], []);

    /// <summary>The sheet that carries a plate, or -1.</summary>
    public int SheetOf(int plate) => Sheets.FindIndex(s => s.Plates.Any(p => p.PlateId == plate));
}

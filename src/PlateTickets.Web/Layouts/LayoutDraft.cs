using PlateTickets.Planning.Nesting;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stock;

namespace PlateTickets.Web.Layouts;

/// <summary>The layout that a person works on: a proposal, moved by hand, with every step undoable.</summary>
public sealed class LayoutDraft(Room room, Shelf shelf, IReadOnlyList<WaitingPlate> plates)
{
    private const int MostSteps = 200;

    private readonly Dictionary<int, WaitingPlate> _plates = plates.ToDictionary(p => p.PlateId);
    private readonly List<DraftState> _undo = [];
    private readonly List<DraftState> _redo = [];

    public Shelf Shelf => shelf;

    public IReadOnlyList<WaitingPlate> Plates => plates;

    public LayoutWishes Wishes { get; private set; } = new(CopyRule.Any, null);

    public DraftState Now { get; private set; } = DraftState.Empty;

    /// <summary>The sheets as they were proposed last, to compare with.</summary>
    public IReadOnlyList<NestSheet> Proposed { get; private set; } = [];

    public bool CanUndo => _undo.Count > 0;

    public bool CanRedo => _redo.Count > 0;

    public WaitingPlate Plate(int id) => _plates[id];

    public bool Knows(int plate) => _plates.ContainsKey(plate);

    /// <summary>Plates that lie on no sheet yet.</summary>
    public IEnumerable<WaitingPlate> Loose
    {
        get
        {
            var laid = Now.Sheets.SelectMany(s => s.Plates).Select(p => p.PlateId).ToHashSet();
            return plates.Where(p => !laid.Contains(p.PlateId));
        }
    }

    /// <summary>Everything laid out anew, for <see cref="Take"/>. A sheet with a locked plate stays as it is. Changes nothing, so it may run beside the page.</summary>
    public IReadOnlyList<DraftSheet> Proposal(LayoutWishes wishes)
    {
        var kept = Now.Sheets.RemoveAll(s => !s.Plates.Any(p => Now.Locked.Contains(p.PlateId)));
        var keptPlates = kept.SelectMany(s => s.Plates).Select(p => p.PlateId).ToHashSet();
        var left = new Shelf([.. shelf.Choices.Select(c => c with
        {
            Stock = c.Stock with { Copies = c.Stock.Copies - kept.Count(s => s.Choice == c.Stock.Id) },
        })]);
        var result = LayoutProposal.Make(room, left, plates.Where(p => !keptPlates.Contains(p.PlateId)), wishes);
        return [.. kept, .. result.Sheets.Select(s => new DraftSheet(s.StockId, s.Width, s.Length, [.. s.Plates]))];
    }

    public void Take(IReadOnlyList<DraftSheet> proposal, LayoutWishes wishes)
    {
        Wishes = wishes;
        Step(Now with { Sheets = [.. proposal] });
        Proposed = [.. Now.Sheets.Select(s => s.Nested)];
    }

    /// <summary>Puts a plate on a sheet with its corner at a place, near which it is drawn to its neighbours.</summary>
    public void Put(int plate, int sheet, long x, long y)
    {
        if (IsFree(plate) && sheet >= 0 && sheet < Now.Sheets.Count)
        {
            var (width, length, across) = SizeOf(plate);
            var (atX, atY) = FreeSpots.Snap(Now.Sheets[sheet], room.NestRules, plate, x, y, width, length);
            Place(plate, sheet, new PlacedPlate(plate, atX, atY, width, length, across));
        }
    }

    /// <summary>Moves a plate by so much, without drawing it anywhere.</summary>
    public void Nudge(int plate, long dx, long dy)
    {
        if (IsFree(plate) && Now.SheetOf(plate) is var at and >= 0)
        {
            var sheet = Now.Sheets[at];
            var was = sheet.Plates.First(p => p.PlateId == plate);
            Place(plate, at, was with { X = Math.Clamp(was.X + dx, 0, Math.Max(0, sheet.Width - was.Width)), Y = Math.Clamp(was.Y + dy, 0, Math.Max(0, sheet.Length - was.Length)) });
        }
    }

    /// <summary>Puts a plate on the first free place of a sheet.</summary>
    /// <returns>False when there is none.</returns>
    public bool PutWhereFree(int plate, int sheet)
    {
        var (width, length, across) = SizeOf(plate);
        if (!IsFree(plate) || sheet < 0 || sheet >= Now.Sheets.Count || FreeSpots.First(Now.Sheets[sheet], room.NestRules, plate, width, length) is not { } spot)
        {
            return false;
        }

        Place(plate, sheet, new PlacedPlate(plate, spot.X, spot.Y, width, length, across));
        return true;
    }

    /// <summary>Takes a plate off its sheet.</summary>
    public void TakeOff(int plate)
    {
        if (IsFree(plate) && Now.SheetOf(plate) is var at and >= 0)
        {
            Step(Now with { Sheets = Now.Sheets.SetItem(at, Now.Sheets[at].Without(plate)) });
        }
    }

    /// <summary>Turns a plate by 90 degrees about its corner, or with it all plates of its ticket that are not locked.</summary>
    public void Turn(int plate, bool wholeTicket)
    {
        var ticket = _plates[plate].TicketId;
        var turned = plates.Where(p => IsFree(p.PlateId) && (p.PlateId == plate || (wholeTicket && p.TicketId == ticket))).Select(p => p.PlateId).ToHashSet();
        Step(Now with
        {
            Sheets = Now.Sheets.ConvertAll(s => s with
            {
                Plates = [.. s.Plates.Select(p => turned.Contains(p.PlateId) ? p with { Width = p.Length, Length = p.Width, Rotated = !p.Rotated } : p)],
            }),
        });
    }

    public void ToggleLock(int plate)
    {
        if (Now.SheetOf(plate) >= 0)
        {
            Step(Now with { Locked = Now.Locked.Contains(plate) ? Now.Locked.Remove(plate) : Now.Locked.Add(plate) });
        }
    }

    public void AddSheet(int choice)
    {
        var stock = shelf.Stocks[choice];
        Step(Now with { Sheets = Now.Sheets.Add(new DraftSheet(choice, stock.Width, stock.Length, [])) });
    }

    /// <summary>Takes a sheet out; its plates wait again. A sheet with a locked plate stays.</summary>
    public void RemoveSheet(int sheet)
    {
        if (sheet >= 0 && sheet < Now.Sheets.Count && !Now.Sheets[sheet].Plates.Any(p => Now.Locked.Contains(p.PlateId)))
        {
            Step(Now with { Sheets = Now.Sheets.RemoveAt(sheet) });
        }
    }

    public void Undo() => Swap(_undo, _redo);

    public void Redo() => Swap(_redo, _undo);

    private bool IsFree(int plate) => _plates.ContainsKey(plate) && !Now.Locked.Contains(plate);

    // A plate keeps the direction that it lies in; one that lies nowhere takes its ticket's.
    private (long Width, long Length, bool Across) SizeOf(int plate)
    {
        var at = Now.SheetOf(plate);
        var across = at >= 0
            ? Now.Sheets[at].Plates.First(p => p.PlateId == plate).Rotated
            : Now.Sheets.SelectMany(s => s.Plates).FirstOrDefault(p => _plates[p.PlateId].TicketId == _plates[plate].TicketId)?.Rotated ?? false;
        var size = _plates[plate];
        return across ? (size.LengthUm, size.WidthUm, true) : (size.WidthUm, size.LengthUm, false);
    }

    private void Place(int plate, int sheet, PlacedPlate placed)
    {
        var from = Now.SheetOf(plate);
        var sheets = from >= 0 ? Now.Sheets.SetItem(from, Now.Sheets[from].Without(plate)) : Now.Sheets;
        Step(Now with { Sheets = sheets.SetItem(sheet, sheets[sheet].With(placed)) });
    }

    private void Step(DraftState next)
    {
        _undo.Add(Now);
        if (_undo.Count > MostSteps)
        {
            _undo.RemoveAt(0);
        }

        _redo.Clear();
        Now = next;
    }

    private void Swap(List<DraftState> from, List<DraftState> to)
    {
        if (from.Count > 0)
        {
            to.Add(Now);
            Now = from[^1];
            from.RemoveAt(from.Count - 1);
        }
    }
}

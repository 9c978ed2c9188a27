namespace PlateTickets.Planning.Nesting.Search;

/// <summary>
/// Puts plates one by one into the free rectangles of some open sheets, each time where the score is least, and splits what
/// is left of the rectangle by one cut from edge to edge: so the sheet can always be cut apart.
/// After J. Jylänki, A thousand ways to pack the bin, 2010 (guillotine algorithm with free rectangles that are not merged).
/// </summary>
internal sealed class Packer(Problem problem)
{
    private Free[] _free = new Free[64];
    private int _frees;
    private readonly List<Open> _open = [];
    private int _opened;
    private int _leastWidth;
    private int _leastLength;

    /// <summary>The lots of the sets that have plates on sheets that are not open here.</summary>
    public LotsOfSets Lots { get; } = new(problem);

    public FitScore Score { get; set; }

    public SplitRule Split { get; set; }

    /// <summary>How plates that may turn by themselves are tried first.</summary>
    public Posture Posture { get; set; }

    /// <summary>Rectangles that take no plate of these sizes are not kept.</summary>
    public void Clear(int leastWidth, int leastLength) => (_frees, _opened, _leastWidth, _leastLength) = (0, 0, leastWidth, leastLength);

    public void AddSheet(int kind)
    {
        if (_opened == _open.Count)
        {
            _open.Add(new Open());
        }

        _open[_opened].Start(kind);
        Add(new Free(_opened, 0, 0, problem.Kinds[kind].Width, problem.Kinds[kind].Length));
        _opened++;
    }

    /// <returns>False when no free rectangle takes it.</returns>
    public bool Put(int item)
    {
        var (w, h, turns) = (problem.Width[item], problem.Length[item], problem.Turns[item]);
        if (!turns || Posture == Posture.AsItFits)
        {
            return Put(item, w, h, false, turns);
        }

        var lies = w >= h;
        var first = lies == (Posture == Posture.Lying);
        return first
            ? Put(item, w, h, false, false) || Put(item, h, w, true, false)
            : Put(item, h, w, true, false) || Put(item, w, h, false, false);
    }

    /// <summary>
    /// The other way round: takes one free rectangle after the other and lays the plate into it that suits it best, until no
    /// plate fits anywhere. The plates laid are taken from the list.
    /// </summary>
    public void Fill(List<int> items, SuitScore score, double noise, ref SplitMix random)
    {
        while (_frees > 0 && items.Count > 0)
        {
            var into = _free[--_frees];
            var (at, turned, most) = (-1, false, 0.0);
            for (var i = 0; i < items.Count; i++)
            {
                var item = items[i];
                var (w, h) = (problem.Width[item], problem.Length[item]);
                if (w <= into.W && h <= into.H && Suits(into, w, h, score) * (1 - (noise * random.Uniform())) is var suits && suits > most && MayJoin(into.Sheet, item))
                {
                    (at, turned, most) = (i, false, suits);
                }

                if (problem.Turns[item] && h <= into.W && w <= into.H && Suits(into, h, w, score) * (1 - (noise * random.Uniform())) is var other && other > most && MayJoin(into.Sheet, item))
                {
                    (at, turned, most) = (i, true, other);
                }
            }

            if (at >= 0)
            {
                var item = items[at];
                items[at] = items[^1];
                items.RemoveAt(items.Count - 1);
                Lay(item, into, turned, turned ? problem.Length[item] : problem.Width[item], turned ? problem.Width[item] : problem.Length[item]);
            }
        }
    }

    private static double Suits(in Free free, int w, int h, SuitScore score)
    {
        var (x, y) = ((double)w / free.W, (double)h / free.H);
        return score switch
        {
            SuitScore.Area => x * y,
            SuitScore.Side => Math.Max(x, y),
            SuitScore.Width => x,
            SuitScore.Length => y,
            _ => Math.Max(x, y) > 0.999 ? 1 + (x * y) : x * y,
        };
    }

    private bool Put(int item, int w, int h, bool start, bool turns)
    {
        var (at, turned, least) = (-1, false, long.MaxValue);
        for (var i = 0; i < _frees; i++)
        {
            ref var free = ref _free[i];
            if (w <= free.W && h <= free.H && ScoreOf(free, w, h) is var score && score < least && MayJoin(free.Sheet, item))
            {
                (at, turned, least) = (i, start, score);
            }

            if (turns && h <= free.W && w <= free.H && ScoreOf(free, h, w) is var other && other < least && MayJoin(free.Sheet, item))
            {
                (at, turned, least) = (i, true, other);
            }
        }

        if (at < 0)
        {
            return false;
        }

        var into = _free[at];
        var flip = turned != start;
        _free[at] = _free[--_frees];
        Lay(item, into, turned, flip ? h : w, flip ? w : h);
        return true;
    }

    private void Lay(int item, in Free into, bool turned, int w, int h)
    {
        _open[into.Sheet].Add(problem, new Spot(item, into.X, into.Y, turned), (into.W > w ? 1 : 0) + (into.H > h ? 1 : 0));
        if (problem.Rules.OneLotPerSet)
        {
            Lots.Note(item, problem.Kinds[_open[into.Sheet].Kind].Lot);
        }

        Cut(into, w, h);
    }

    /// <summary>The sheets that have at least one plate.</summary>
    public IEnumerable<Filling> Fillings()
    {
        for (var i = 0; i < _opened; i++)
        {
            if (_open[i].Spots.Count > 0)
            {
                yield return new Filling(_open[i].Kind, [.. _open[i].Spots], _open[i].Area, _open[i].Cuts);
            }
        }
    }

    private bool MayJoin(int sheet, int item) => !problem.HasCompany
        || (_open[sheet].MayJoin(problem, item) && (!problem.Rules.OneLotPerSet || Lots.Allows(item, problem.Kinds[_open[sheet].Kind].Lot)));

    private long ScoreOf(in Free free, int w, int h)
    {
        var (dw, dh) = (free.W - w, free.H - h);
        return Score switch
        {
            FitScore.LeastArea => ((long)free.W * free.H) - ((long)w * h),
            FitScore.ShortSide => Math.Min(dw, dh),
            FitScore.LongSide => Math.Max(dw, dh),
            FitScore.Leftmost => ((long)free.Sheet << 48) + ((long)free.X << 20) + (free.Y >> 12),
            _ => Math.Min(dw, dh) == 0 ? Math.Max(dw, dh) : ((long)free.W * free.H) - ((long)w * h) + int.MaxValue,
        };
    }

    private void Cut(in Free free, int w, int h)
    {
        var (dw, dh) = (free.W - w, free.H - h);
        var wideTop = Split switch
        {
            SplitRule.ShorterRest => dw < dh,
            SplitRule.LongerRest => dw >= dh,
            SplitRule.Across => true,
            SplitRule.Along => false,
            SplitRule.LargestPiece => (long)dh * free.W >= (long)dw * free.H,
            _ => (long)dh * free.W < (long)dw * free.H,
        };
        if (dw > 0 && dw >= _leastWidth && (wideTop ? h : free.H) >= _leastLength)
        {
            Add(new Free(free.Sheet, free.X + w, free.Y, dw, wideTop ? h : free.H));
        }

        if (dh > 0 && dh >= _leastLength && (wideTop ? free.W : w) >= _leastWidth)
        {
            Add(new Free(free.Sheet, free.X, free.Y + h, wideTop ? free.W : w, dh));
        }
    }

    private void Add(Free free)
    {
        if (_frees == _free.Length)
        {
            Array.Resize(ref _free, 2 * _frees);
        }

        _free[_frees++] = free;
    }

    private readonly record struct Free(int Sheet, int X, int Y, int W, int H);

    private sealed class Open
    {
        private long _firstDue;
        private long _lastDue;

        public int Kind { get; private set; }

        public double Area { get; private set; }

        public int Cuts { get; private set; }

        public List<Spot> Spots { get; } = [];

        public void Start(int kind)
        {
            Spots.Clear();
            (Kind, Area, Cuts, _firstDue, _lastDue) = (kind, 0, 0, long.MaxValue, long.MinValue);
        }

        public void Add(Problem problem, Spot spot, int cuts)
        {
            Spots.Add(spot);
            Cuts += cuts;
            Area += problem.Area(spot.Item);
            (_firstDue, _lastDue) = (Math.Min(_firstDue, problem.Due[spot.Item]), Math.Max(_lastDue, problem.Due[spot.Item]));
        }

        public bool MayJoin(Problem problem, int item)
        {
            if (Spots.Count == 0)
            {
                return true;
            }

            var (rules, due) = (problem.Rules, problem.Due[item]);
            if (Math.Max(_lastDue, due) - Math.Min(_firstDue, due) > rules.DueApart)
            {
                return false;
            }

            if (rules.Copies == CopyRule.Apart)
            {
                foreach (var spot in Spots)
                {
                    if (problem.Separation[spot.Item] == problem.Separation[item])
                    {
                        return false;
                    }
                }
            }

            return true;
        }
    }
}

namespace PlateTickets.Planning.Nesting.Search;

/// <summary>Lays a list of plates onto sheets that are open, in one style.</summary>
internal sealed class Relaying(Problem problem, Packer packer)
{
    private readonly PlateOrder _order = new(problem);
    private readonly List<int> _left = [];

    /// <summary>The plates that found no place. Not all of them when their area is above the limit: then the laying was given up.</summary>
    public IReadOnlyList<int> Left => _left;

    /// <returns>The area of the plates left, or a part of it that is above the limit.</returns>
    public double Lay(List<int> plates, in Style style, double limit, ref SplitMix random)
    {
        _left.Clear();
        packer.Split = style.Split;
        if (style.SheetBySheet)
        {
            _left.AddRange(plates);
            packer.Fill(_left, (SuitScore)style.Fit, random.Below(3) switch { 0 => 0.1, 1 => 0.4, _ => 1 }, ref random);
            return _left.Sum(problem.Area);
        }

        (packer.Score, packer.Posture) = ((FitScore)style.Fit, style.Posture);
        _order.Sort(plates, style.Measure, random.Below(4) switch { 0 => 0, 1 => 0.2, 2 => 0.6, _ => 2 }, ref random);
        var left = 0.0;
        foreach (var plate in plates)
        {
            if (!packer.Put(plate))
            {
                _left.Add(plate);
                left += problem.Area(plate);
                if (left > limit)
                {
                    break;
                }
            }
        }

        return left;
    }
}

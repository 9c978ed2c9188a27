using System.Runtime.InteropServices;

namespace PlateTickets.Planning.Nesting.Search;

/// <summary>In which order plates are put onto sheets: large ones first, by one of several measures, with some chance.</summary>
internal sealed class PlateOrder(Problem problem)
{
    public const int Measures = 5;

    private double[] _keys = new double[64];

    public void Sort(List<int> items, int measure, double noise, ref SplitMix random)
    {
        if (_keys.Length < items.Count)
        {
            _keys = new double[2 * items.Count];
        }

        for (var i = 0; i < items.Count; i++)
        {
            _keys[i] = -Size(items[i], measure) * (1 + (noise * random.Uniform()));
        }

        _keys.AsSpan(0, items.Count).Sort(CollectionsMarshal.AsSpan(items));
    }

    private double Size(int item, int measure)
    {
        var (w, h) = (problem.Width[item], problem.Length[item]);
        return measure switch
        {
            0 => (double)w * h,
            1 => Math.Max(w, h),
            2 => w,
            3 => h,
            _ => w + h,
        };
    }
}

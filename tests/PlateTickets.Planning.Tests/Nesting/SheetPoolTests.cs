using PlateTickets.Planning.Nesting;
using PlateTickets.Planning.Nesting.Search;

namespace PlateTickets.Planning.Tests.Nesting;

/// <summary>Sheets laid at different times make a layout together. Sizes are invented: three of each of two squares, sheets of area 100.</summary>
public sealed class SheetPoolTests
{
    private readonly Problem _problem = new Problem
    {
        Width = [5, 5, 5, 3, 3, 3],
        Length = [5, 5, 5, 3, 3, 3],
        Turns = new bool[6],
        Set = [-1, -1, -1, -1, -1, -1],
        Separation = [0, 1, 2, 3, 4, 5],
        Due = new long[6],
        Sets = 0,
        Kinds = [new SheetKind(0, 10, 10, 100, 10, 0)],
        Rules = new NestRules(0, 0, 0),
    }.Measured();

    [Fact]
    public void The_sheets_that_take_everything_below_the_bound_are_found_among_fuller_ones()
    {
        var pool = new SheetPool(_problem, 1);
        pool.Add(Sheet(0, 1, 2));
        pool.Add(Sheet(0, 1, 3));
        pool.Add(Sheet(0, 3, 4));
        pool.Add(Sheet(2, 4, 5));
        var layout = pool.Choose(250);
        Assert.Empty(layout.Loose);
        Assert.Equal((2, 200.0), (layout.Sheets.Count, layout.Cost));
        Assert.Equal([0, 1, 2, 3, 4, 5], layout.Sheets.SelectMany(s => s.Spots).Select(s => s.Item).Order());
    }

    [Fact]
    public void One_of_a_size_stands_for_another_and_nothing_lies_twice()
    {
        var pool = new SheetPool(_problem, 1);
        pool.Add(Sheet(0, 1, 3));
        pool.Add(Sheet(2, 0, 5));
        var layout = pool.Choose(250);
        var laid = layout.Sheets.SelectMany(s => s.Spots).Select(s => s.Item).ToList();
        Assert.Equal(5, laid.Distinct().Count());
        Assert.Equal(5, laid.Count);
        Assert.Equal([_problem.Area(layout.Loose[0])], [layout.LooseArea]);
        Assert.Equal(3 * 25.0 + 18, layout.Sheets.Sum(s => s.Area));
    }

    [Fact]
    public void No_choice_costs_more_than_the_bound()
    {
        var pool = new SheetPool(_problem, 1);
        pool.Add(Sheet(0, 1, 2));
        pool.Add(Sheet(3, 4, 5));
        var layout = pool.Choose(150);
        Assert.Equal(100, layout.Cost);
        Assert.Equal(27, layout.LooseArea);
    }

    private Filling Sheet(params int[] items) =>
        new(0, [.. items.Select((item, i) => new Spot(item, 0, 5 * i, false))], items.Sum(_problem.Area), items.Length);
}

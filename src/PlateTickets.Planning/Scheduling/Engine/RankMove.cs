namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>A neighbour of a ranking: one job goes to another place, or two change places.</summary>
internal static class RankMove
{
    public static void Try(int[] ranking, int[] neighbour, Random random)
    {
        ranking.CopyTo(neighbour, 0);
        var (from, to) = (random.Next(ranking.Length), random.Next(ranking.Length));
        if (random.Next(3) == 0)
        {
            (neighbour[from], neighbour[to]) = (neighbour[to], neighbour[from]);
            return;
        }

        if (from > to)
        {
            Array.Copy(ranking, to, neighbour, to + 1, from - to);
        }
        else
        {
            Array.Copy(ranking, from + 1, neighbour, from, to - from);
        }

        neighbour[to] = ranking[from];
    }
}

namespace PlateTickets.Travelers;

public static class TravelerPdf
{
    public static byte[] Render(TravelerContent content, TravelerPaper paper) => throw new NotSupportedException($"{content} {paper}");
}

using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Orders.Arrivals;

/// <summary>What the name of an arriving file says: a ticket's number and behind it the colour, such as T123ABCD5_Leaf-Green.tif.</summary>
/// <param name="Ticket">The ticket's number; null when the name holds none.</param>
/// <param name="Mistyped">A part that looks like a ticket's number but has the wrong check character.</param>
/// <param name="Colour">What stands behind the number; empty when nothing does.</param>
public sealed record ArrivalName(string? Ticket, string? Mistyped, string Colour)
{
    private static readonly char[] Between = ['_', '-', ' ', '.', '(', ')', '+'];

    /// <summary>Endings and beginnings of files that are still being written.</summary>
    private static readonly string[] Temporary = [".part", ".tmp", ".temp", ".partial", ".filepart", ".crdownload", ".download", ".swp"];

    public static bool IsTemporary(string fileName) =>
        fileName.StartsWith('.') || fileName.StartsWith('~') || fileName.EndsWith('~') || Array.Exists(Temporary, t => fileName.EndsWith(t, StringComparison.OrdinalIgnoreCase));

    public static ArrivalName Of(string fileName)
    {
        var name = Path.GetFileNameWithoutExtension(fileName);
        string? mistyped = null;
        for (var start = 0; start < name.Length;)
        {
            var end = name.IndexOfAny(Between, start);
            end = end < 0 ? name.Length : end;
            var read = TrackingNumber.Read(name[start..end]);
            if (read.Kind == NumberKind.Ticket)
            {
                return new ArrivalName(read.Number, null, name[end..].Trim(Between).Replace('_', ' '));
            }

            if (read.Fault == NumberFault.Misread && read.Cleaned.StartsWith('T'))
            {
                mistyped ??= name[start..end];
            }

            start = end + 1;
        }

        return new ArrivalName(null, mistyped, "");
    }
}

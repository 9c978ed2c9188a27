namespace PlateTickets.Planning.Scheduling;

/// <summary>
/// Which waiting sheet goes first where more comes in than can be done in time: what its ticket weighs for each hour of work that is left of it, less the
/// more time it still has, and less the longer its machine must be made ready for it. Where everything is late anyway, the order of due-by makes everybody
/// late; this lets few be very late (A. P. J. Vepsalainen, T. E. Morton, Priority rules for job shops with weighted tardiness costs, Management Science 33,
/// 1987, 1035-1047; set-ups as Y. H. Lee, K. Bhaskaran, M. Pinedo, IIE Transactions 29, 1997, 45-52; both from memory).
/// </summary>
/// <param name="LookAhead">How far ahead of its due-by a sheet begins to count, in mean lengths of a stage.</param>
/// <param name="Patience">The longer, the sooner a machine is made ready for another recipe, in mean lengths of a stage.</param>
internal sealed record ApparentUrgency(double LookAhead, double Patience)
{
    /// <summary>The one that comes near the best of them in most rooms: found by trying invented rooms of 30 to 400 sheets.</summary>
    public static ApparentUrgency Usual { get; } = new(2, 0.5);

    /// <summary>Which of them is the best depends on the room: they are tried, the likely ones first.</summary>
    public static IReadOnlyList<ApparentUrgency> ToTry { get; } =
        [.. from look in new[] { 2.0, 1, 4, 8 } from patience in new[] { 0.5, 0.25, 1, 0.1 } select new ApparentUrgency(look, patience)];
}

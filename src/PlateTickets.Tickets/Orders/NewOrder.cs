using PlateTickets.Tickets.Orders.Separations;

namespace PlateTickets.Tickets.Orders;

/// <summary>An order as the CSR or the API gives it.</summary>
public sealed record NewOrder
{
    public int CustomerId { get; init; }

    /// <summary>A customer that is not in the list yet; used when <see cref="CustomerId"/> is 0.</summary>
    public string NewCustomer { get; init; } = "";

    public string Title { get; init; } = "";

    public int PressId { get; init; }

    /// <summary>The press's cylinder; 0 when <see cref="RepeatMm"/> is given directly.</summary>
    public int CylinderId { get; init; }

    /// <summary>Printed length of one turn in mm, when no cylinder is chosen.</summary>
    public double? RepeatMm { get; init; }

    /// <summary>0 for the press's usual material.</summary>
    public int MaterialId { get; init; }

    public DateTime DueUtc { get; init; }

    public int Copies { get; init; } = 1;

    /// <summary>What the customer calls the order; empty when not said.</summary>
    public string CustomerReference { get; init; } = "";

    /// <summary>Where the customer is told how it goes; empty for nowhere.</summary>
    public string ContactMail { get; init; } = "";
}

/// <summary>A separation whose file has been read; the colour may have been corrected by a person.</summary>
/// <param name="Facts">What the file says.</param>
/// <param name="Sha256">Of the whole file.</param>
/// <param name="FileBytes">Its length.</param>
/// <param name="AcceptedBecause">Why a length around that looks wrong is taken all the same; empty when nobody said so.</param>
public sealed record ReadSeparation(SeparationFacts Facts, string Sha256, long FileBytes, string AcceptedBecause = "");

/// <summary>What is wrong with an order, field by field.</summary>
public sealed class OrderRefusedException(IReadOnlyDictionary<string, string> errors)
    : Exception(string.Join(" ", errors.Values))
{
    /// <summary>Field name of <see cref="NewOrder"/> (or a file name) and the sentence.</summary>
    public IReadOnlyDictionary<string, string> Errors { get; } = errors;
}

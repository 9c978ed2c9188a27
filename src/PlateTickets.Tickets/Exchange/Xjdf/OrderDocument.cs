namespace PlateTickets.Tickets.Exchange.Xjdf;

/// <summary>A plate that a document asks for.</summary>
/// <param name="Separation">As the partition names it: no blanks.</param>
/// <param name="Colour">The ink: the actual colour name where the document gives one.</param>
/// <param name="Amount">How many; null when that cannot be read.</param>
/// <param name="FileUrl">Where its separation lies; empty when it follows.</param>
public sealed record DocumentPlate(string Separation, string Colour, int? Amount, string FileUrl);

/// <summary>Something of a document that a person must see before plates are made.</summary>
/// <param name="Key">The same for the same thing.</param>
/// <param name="Sentence">What it is and what may be done.</param>
public sealed record DocumentDoubt(string Key, string Sentence);

/// <summary>What an XJDF says about an order for plates; nothing is looked up yet. Lengths as they stand there.</summary>
public sealed record OrderDocument
{
    public required string JobId { get; init; }

    public string JobPartId { get; init; } = "";

    /// <summary>XJDF/@DescriptiveName.</summary>
    public string Title { get; init; } = "";

    /// <summary>CustomerInfo/@CustomerID: what the sender calls the customer.</summary>
    public string CustomerId { get; init; } = "";

    /// <summary>The customer's company, from a Contact.</summary>
    public string CustomerName { get; init; } = "";

    /// <summary>CustomerInfo/@CustomerOrderID.</summary>
    public string CustomerOrderId { get; init; } = "";

    /// <summary>CustomerInfo/@CustomerJobName.</summary>
    public string CustomerJobName { get; init; } = "";

    /// <summary>A contact's mail address; empty for none.</summary>
    public string ContactMail { get; init; } = "";

    /// <summary>The due time as written there; empty for none.</summary>
    public string DueText { get; init; } = "";

    /// <summary>Where it stands: NodeInfo/@LastEnd.</summary>
    public string DueFrom { get; init; } = "";

    /// <summary>NodeInfo/@JobPriority, 0 to 100.</summary>
    public int Priority { get; init; } = 50;

    /// <summary>GeneralID with IDUsage Press, Cylinder, RepeatMillimetres and Material.</summary>
    public string Press { get; init; } = "";

    public string Cylinder { get; init; } = "";

    public string RepeatMm { get; init; } = "";

    public string Material { get; init; } = "";

    /// <summary>Resource/@Brand of the raw plate.</summary>
    public string Brand { get; init; } = "";

    /// <summary>Media/@Thickness, in micrometres if its sender keeps to the standard.</summary>
    public double? Thickness { get; init; }

    /// <summary>Media/@PlateTechnology.</summary>
    public string PlateTechnology { get; init; } = "";

    public IReadOnlyList<DocumentPlate> Plates { get; init; } = [];

    /// <summary>What decides a plate and is not understood.</summary>
    public IReadOnlyList<DocumentDoubt> Doubts { get; init; } = [];

    /// <summary>What was kept and is not used, for the sender and for people.</summary>
    public IReadOnlyList<string> Warnings { get; init; } = [];
}

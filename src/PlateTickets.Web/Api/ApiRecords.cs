using System.ComponentModel;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Api;

/// <summary>An order to enter. Customer, press, cylinder and material are named as in the room.</summary>
public sealed record OrderRequest
{
    [Description("The customer's name. A name that is not in the list yet becomes a new customer.")]
    public required string Customer { get; init; }

    [Description("What the customer calls the job; at most 200 characters.")]
    public required string Title { get; init; }

    [Description("The press, by its name.")]
    public required string Press { get; init; }

    [Description("One of the press's cylinders, by its name. Leave out when repeatMm is given.")]
    public string? Cylinder { get; init; }

    [Description("Printed length of one turn in mm, when no cylinder is named.")]
    public double? RepeatMm { get; init; }

    [Description("The plate material, by its name; the press's usual material when left out.")]
    public string? Material { get; init; }

    [Description("When the set must be done, with offset (RFC 3339).")]
    public required DateTimeOffset Due { get; init; }

    [Description("Plates of each colour, 1 to 50.")]
    public int Copies { get; init; } = 1;
}

/// <summary>The number that order and ticket share.</summary>
public sealed record OrderResponse(string Number, string Ticket, string Separations);

/// <summary>A separation as it was read.</summary>
public sealed record SeparationResponse(
    string FileName, string Colour, ColourSource ColourFrom, double WidthMm, double LengthMm, double PixelsPerInchAcross, double PixelsPerInchAround, string Sha256,
    [property: Description("Share of the image that is ink, 0 to 1; null when the pixels were not read.")] double? Coverage,
    [property: Description("Inked area of one plate in cm².")] double? InkCm2,
    [property: Description("The smallest rectangle with all ink, upright; null without ink.")] ImageBoxResponse? ImageBox,
    string? Preview,
    [property: Description("What is odd about it, in words: another resolution, a solid, or what was accepted with a reason.")] IReadOnlyList<string> Warnings);

/// <summary>In mm from the upper left corner.</summary>
public sealed record ImageBoxResponse(double LeftMm, double TopMm, double WidthMm, double LengthMm);

/// <summary>The files that were taken and what became of the ticket.</summary>
public sealed record SeparationsResponse(string Number, string State, IReadOnlyList<SeparationResponse> Separations);

/// <summary>A page of the order list.</summary>
public sealed record OrderPage(int? Total, int Skip, IReadOnlyList<OrderLineResponse> Orders);

public sealed record OrderLineResponse(
    string Number, string Customer, string Title, string Press, string Material, DateTime DueUtc, string State, int Plates, int Sheets, int SheetsDone,
    DateTime? PlannedDoneUtc, DateTime? DoneUtc, string Ticket);

/// <summary>One change of a ticket.</summary>
public sealed record TicketChange
{
    [Description("It goes before all others, or no longer.")]
    public bool? Rush { get; init; }

    [Description("Its waiting sheets are set aside, or go on.")]
    public bool? OnHold { get; init; }

    [Description("Why it is put on hold; at most 200 characters.")]
    public string? Reason { get; init; }
}

public sealed record TicketResponse(
    string Number, string Customer, string Title, string Press, string Material, double RepeatMm, DateTime DueUtc, int Copies, string State,
    string Lateness, double? LateChance, DateTime? PlannedDoneUtc, DateTime? DoneUtc, IReadOnlyList<PlateResponse> Plates, IReadOnlyList<SheetResponse> Sheets);

public sealed record PlateResponse(
    string Colour, int Copy, double WidthMm, double LengthMm, string? Sheet,
    [property: Description("Share of the plate that is ink, 0 to 1; null when the pixels were not read.")] double? Coverage,
    [property: Description("Inked area in cm².")] double? InkCm2,
    [property: Description("Address of the grey preview (PNG).")] string? Preview);

public sealed record SheetResponse(
    string Number, string State, string? Station, double WidthMm, double LengthMm, string Recipe, string Traveler,
    IReadOnlyList<PlacementResponse> Layout, IReadOnlyList<StageResponse> Stages);

public sealed record PlacementResponse(int Mark, string Colour, double XMm, double YMm, double WidthMm, double LengthMm, bool Rotated);

public sealed record StageResponse(
    string Station, string State, string? Equipment, int LoadSeconds, int RunSeconds, int UnloadSeconds, string Explanation,
    DateTime? PlannedStartUtc, DateTime? PlannedFinishUtc, DateTime? DueByUtc, double? SlackMinutes, DateTime? StartedUtc, DateTime? FinishedUtc);

/// <summary>One reading of a traveler.</summary>
public sealed record ScanBody
{
    [Description("Made where the code was read; the same id twice is one scan.")]
    public required Guid Id { get; init; }

    [Description("What the scanner typed.")]
    public required string Code { get; init; }

    [Description("The machine, by the name in its station page's address, such as frame-1.")]
    public required string Equipment { get; init; }

    [Description("Next starts a waiting stage and finishes a running one; Start and Finish do only that.")]
    public ScanAction Action { get; init; } = ScanAction.Next;

    [Description("Who scanned; at most 60 characters.")]
    public required string By { get; init; }

    [Description("When it was read, with offset; now when left out.")]
    public DateTimeOffset? ReadAt { get; init; }

    [Description("When it is sent, with offset, by the same clock as readAt: a wrong clock of the reader is then corrected. Without it readAt is taken as it is.")]
    public DateTimeOffset? SentAt { get; init; }

    [Description("A person confirms that a time or a rest is not over, or that a machine that is marked down works.")]
    public bool Confirmed { get; init; }

    [Description("The sheet that was read before it, when the code is a drawer's or a lot's.")]
    public string? Of { get; init; }

    [Description("The points of the check list that were ticked, such as CoverFilmOff; the recipe says which a start needs.")]
    public IReadOnlyList<CheckPoint>? Ticked { get; init; }

    [Description("Read without a connection and delivered later: nobody could be shown the check list.")]
    public bool Offline { get; init; }
}

public sealed record ScanResponse(
    Guid Id, ScanOutcome Outcome, string Sentence, string Sheet, bool Repeated,
    [property: Description("By how many seconds the reader's clock is behind the server's; below zero when it runs ahead.")] int ClockBehindSeconds);

public sealed record BoardResponse(DateTime AtUtc, IReadOnlyList<BoardSheetResponse> Sheets);

public sealed record BoardSheetResponse(
    string Number, SheetState State, string? Station, string? Equipment, IReadOnlyList<string> Tickets, IReadOnlyList<string> Customers,
    IReadOnlyList<string> Colours, DateTime DueUtc, DateTime? PlannedDoneUtc, DateTime? DueByUtc, double? SlackMinutes, string Lateness,
    [property: Description("Probability that a ticket of it comes late, 0 to 1; null until the plan was simulated.")] double? LateChance,
    [property: Description("Why it comes late, in words; null when it does not.")] string? Why);

/// <summary>Sheets of an order that is not entered yet.</summary>
public sealed record PromiseRequest
{
    [Description("The plate material, by its name.")]
    public required string Material { get; init; }

    [Description("The sheets that it would take, 1 to 100; one whole sheet of the largest stock size when left out.")]
    public IReadOnlyList<PromiseSheet>? Sheets { get; init; }
}

public sealed record PromiseSheet
{
    [Description("Along the drum's axis, in mm.")]
    public required double WidthMm { get; init; }

    [Description("Around the drum, in mm.")]
    public required double LengthMm { get; init; }

    [Description("Plates on it, 1 or more.")]
    public int Plates { get; init; } = 1;
}

/// <summary>Both answers: in its turn, and as a rush.</summary>
public sealed record PromiseResponse(int Sheets, PromiseTimes InTurn, PromiseTimes Rush);

/// <summary>By when it is done with a confidence of 50, 80 and 95 percent, and which tickets it makes late.</summary>
public sealed record PromiseTimes(DateTime PlannedUtc, DateTime Half, DateTime Eighty, DateTime NinetyFive, IReadOnlyList<PushedResponse> MakesLate);

public sealed record PushedResponse(string Ticket, DateTime DueUtc, DateTime BeforeUtc, DateTime AfterUtc);

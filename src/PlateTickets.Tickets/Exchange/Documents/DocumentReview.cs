using System.Globalization;
using System.Text.RegularExpressions;
using PlateTickets.Tickets.Exchange.Xjdf;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Exchange.Documents;

/// <summary>What a person is asked for.</summary>
public enum QuestionKind
{
    Customer = 1,
    Press = 2,
    Cylinder = 3,
    Material = 4,
    Due = 5,
    Copies = 6,

    /// <summary>To have seen something and let it pass.</summary>
    Agree = 7,
}

/// <summary>Something about a document that a person must answer before plates are made.</summary>
/// <param name="Kind">What is asked for.</param>
/// <param name="Key">The same for the same question.</param>
/// <param name="Sentence">What it is about.</param>
public sealed record DocumentQuestion(QuestionKind Kind, string Key, string Sentence);

/// <summary>What the room makes of a document: the order, as far as it is known, and what is asked.</summary>
/// <param name="Document">What was read.</param>
/// <param name="Order">The order; complete when nothing is asked.</param>
/// <param name="Questions">Empty when it can be entered.</param>
/// <param name="Notes">What was decided by itself and what was not used.</param>
public sealed record DocumentReview(OrderDocument Document, NewOrder Order, IReadOnlyList<DocumentQuestion> Questions, IReadOnlyList<string> Notes);

/// <summary>Names of other programs as this room understands them.</summary>
/// <param name="Customers">Ids of customers by name, as far as this document names them.</param>
/// <param name="Known">What people said names mean.</param>
public sealed record RoomNames(IReadOnlyDictionary<string, int> Customers, IReadOnlyDictionary<(NameKind Kind, string Text), int> Known);

/// <summary>Finds press, cylinder, material, customer and due time of a document in the room. What decides a plate and is not sure is asked, never guessed.</summary>
public static partial class DocumentReviewer
{
    /// <summary>Plates of the trade are 0.5 to 8 mm thick (common practice); another number is another unit.</summary>
    public const double ThinnestUm = 500;

    public const double ThickestUm = 8000;

    // Thickness is written in whole hundredths of a millimetre, or converted from thousandths of an inch.
    private const double ThicknessApartUm = 15;

    public static DocumentReview Review(OrderDocument document, DocumentAnswers answers, Room room, RoomNames names, DateTime nowUtc)
    {
        var questions = new List<DocumentQuestion>();
        var notes = new List<string>(document.Warnings);
        var press = PressOf(document, answers, room, names, questions);
        var material = MaterialOf(document, answers, room, names, press, questions, notes);
        var (cylinder, repeat) = CylinderOf(document, answers, press, questions);
        var (customer, newCustomer) = CustomerOf(document, answers, names, questions);
        var due = DueOf(document, answers, room, nowUtc, questions, notes);
        var order = new NewOrder
        {
            CustomerId = customer,
            NewCustomer = newCustomer,
            Title = TitleOf(document),
            PressId = press?.Id ?? 0,
            CylinderId = cylinder,
            RepeatMm = repeat,
            MaterialId = material?.Id ?? 0,
            DueUtc = due,
            Copies = CopiesOf(document, answers, questions),
            CustomerReference = document.CustomerOrderId,
            ContactMail = document.ContactMail,
        };
        questions.AddRange(document.Doubts.Where(d => d.Key != "amount" && !answers.Agreed.Contains(d.Key)).Select(d => new DocumentQuestion(QuestionKind.Agree, d.Key, d.Sentence)));
        if (questions.Count == 0)
        {
            // The rules of every order: what they refuse is asked in their words.
            questions.AddRange(OrderRules.Check(order, room, nowUtc).Select(e => new DocumentQuestion(KindOf(e.Key), e.Key, e.Value)));
        }

        return new(document, order, questions, notes);
    }

    private static QuestionKind KindOf(string field) => field switch
    {
        nameof(NewOrder.CustomerId) => QuestionKind.Customer,
        nameof(NewOrder.PressId) => QuestionKind.Press,
        nameof(NewOrder.CylinderId) => QuestionKind.Cylinder,
        nameof(NewOrder.MaterialId) => QuestionKind.Material,
        nameof(NewOrder.DueUtc) => QuestionKind.Due,
        nameof(NewOrder.Copies) => QuestionKind.Copies,
        _ => QuestionKind.Agree,
    };

    private static string TitleOf(OrderDocument document)
    {
        var title = new[] { document.CustomerJobName, document.Title, document.JobId }.First(t => t.Length > 0);
        return title.Length <= 200 ? title : $"{title[..199]}…";
    }

    private static Press? PressOf(OrderDocument document, DocumentAnswers answers, Room room, RoomNames names, List<DocumentQuestion> questions)
    {
        var press = room.Presses.FirstOrDefault(p => p.Id == answers.PressId)
            ?? (document.Press.Length == 0 ? null
                : room.Presses.FirstOrDefault(p => Same(p.Name, document.Press))
                ?? (names.Known.TryGetValue((NameKind.Press, document.Press), out var id) ? room.Presses.FirstOrDefault(p => p.Id == id) : null));
        if (press is null)
        {
            questions.Add(new(QuestionKind.Press, "press", document.Press.Length == 0
                ? "The document names no press, and the standard has no place for one: choose the press that will run the job."
                : $"Which press is “{document.Press}”?"));
        }

        return press;
    }

    private static (int Cylinder, double? Repeat) CylinderOf(OrderDocument document, DocumentAnswers answers, Press? press, List<DocumentQuestion> questions)
    {
        if (answers.CylinderId is { } chosen && press?.Cylinders.Exists(c => c.Id == chosen) == true)
        {
            return (chosen, null);
        }

        if (answers.RepeatMm is { } typed)
        {
            return (0, typed);
        }

        if (document.Cylinder.Length > 0 && press?.Cylinders.Find(c => Same(c.Name, document.Cylinder)) is { } named)
        {
            return (named.Id, null);
        }

        if (document.Cylinder.Length == 0 && document.RepeatMm.Length > 0)
        {
            if (double.TryParse(document.RepeatMm, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var repeat))
            {
                return (0, repeat);
            }

            questions.Add(new(QuestionKind.Cylinder, "cylinder", $"The repeat “{document.RepeatMm}” is no number of millimetres: choose the cylinder, or type the repeat."));
            return default;
        }

        if (press is not null)
        {
            questions.Add(new(QuestionKind.Cylinder, "cylinder", document.Cylinder.Length > 0
                ? $"{press.Name} has no cylinder “{document.Cylinder}”: choose one of its own, or type the repeat."
                : "The document names no cylinder: choose it, or type the repeat. The length of every plate follows from it."));
        }

        return default;
    }

    private static Material? MaterialOf(
        OrderDocument document, DocumentAnswers answers, Room room, RoomNames names, Press? press, List<DocumentQuestion> questions, List<string> notes)
    {
        if (answers.MaterialId is { } chosen && room.Materials.TryGetValue(chosen, out var answered))
        {
            return answered;
        }

        if (document.Thickness is { } odd and not (>= ThinnestUm and <= ThickestUm))
        {
            questions.Add(new(QuestionKind.Material, "material", $"Media/@Thickness is {Number(odd)}. It stands for micrometres, and {Number(odd)} µm is no plate{(odd is >= 0.5 and <= 8 ? $"; did its sender mean {Number(odd)} mm?" : ".")} Choose the material."));
            return null;
        }

        var named = new[] { document.Material, document.Brand }.Where(n => n.Length > 0)
            .Select(n => room.Materials.Values.FirstOrDefault(m => Same(m.Name, n)) ?? (names.Known.TryGetValue((NameKind.Material, n), out var id) ? room.Materials.GetValueOrDefault(id) : null))
            .FirstOrDefault(m => m is not null);
        if (named is not null)
        {
            if (document.Thickness is { } said && Math.Abs(said - named.ThicknessUm) > ThicknessApartUm)
            {
                questions.Add(new(QuestionKind.Material, "material", $"The document names {named.Name}, which is {Number(named.ThicknessUm)} µm thick, and says {Number(said)} µm. Choose the material."));
                return null;
            }

            return named;
        }

        if (document.Material.Length > 0)
        {
            questions.Add(new(QuestionKind.Material, "material", $"Which material is “{document.Material}”?"));
            return null;
        }

        var usable = room.Materials.Values.Where(m => room.Released(m.Id) is not null && Fits(m, document)).ToList();
        var usual = press is null ? null : usable.Find(m => m.Id == press.UsualMaterialId);
        var found = usable.Count == 1 ? usable[0] : usual;
        if (found is not null && (document.Thickness is not null || usual is not null))
        {
            notes.Add(document.Thickness is { } um
                ? $"Material {found.Name}: {(usable.Count == 1 ? "the only one" : $"usual on {press!.Name} and one of {usable.Count}")} of {Number(um)} µm{(document.PlateTechnology.Length > 0 ? $" for {document.PlateTechnology}" : "")}."
                : $"Material {found.Name}: usual on {press!.Name}; the document names none.");
            return found;
        }

        // Without a press the usual material is not known yet, and nothing must be asked that its answer brings.
        if (press is not null || usable.Count == 0)
        {
            questions.Add(new(QuestionKind.Material, "material", (usable.Count, document.Thickness) switch
            {
                (0, { } um) => $"This room has no material of {Number(um)} µm{(document.PlateTechnology.Length > 0 ? $" for {document.PlateTechnology}" : "")} with a released recipe: choose another, or ask the sender.",
                (0, null) => "This room has no material with a released recipe.",
                (var several, { } um) => $"{several} materials are {Number(um)} µm thick ({string.Join(", ", usable.Select(m => m.Name))}): choose one.",
                _ => "The document names no material: choose it.",
            }));
        }

        return null;
    }

    private static bool Fits(Material material, OrderDocument document) =>
        (document.Thickness is not { } um || Math.Abs(um - material.ThicknessUm) <= ThicknessApartUm)
        && document.PlateTechnology switch
        {
            "FlexoDigitalSolvent" => material.Process == Process.WashoutProcess.Solvent,
            "FlexoDigitalThermal" => material.Process == Process.WashoutProcess.Thermal,
            _ => true,
        };

    private static (int Id, string New) CustomerOf(OrderDocument document, DocumentAnswers answers, RoomNames names, List<DocumentQuestion> questions)
    {
        if (answers.CustomerId is { } chosen)
        {
            return (chosen, "");
        }

        if (answers.NewCustomer.Length > 0)
        {
            return (names.Customers.GetValueOrDefault(answers.NewCustomer), answers.NewCustomer);
        }

        if (document.CustomerId.Length > 0 && names.Known.TryGetValue((NameKind.Customer, document.CustomerId), out var known))
        {
            return (known, "");
        }

        if (document.CustomerName.Length > 0)
        {
            if (names.Customers.TryGetValue(document.CustomerName, out var id))
            {
                return (id, "");
            }

            if (names.Known.TryGetValue((NameKind.Customer, document.CustomerName), out var meant))
            {
                return (meant, "");
            }
        }

        questions.Add(new(QuestionKind.Customer, "customer", (document.CustomerId, document.CustomerName) switch
        {
            ("", "") => "The document names no customer: choose one.",
            ("", var name) => $"“{name}” is no customer here yet: choose the one that is meant, or take the name as a new customer.",
            (var id, "") => $"Which customer is “{id}”?",
            var (id, name) => $"“{name}” (“{id}” at the sender) is no customer here yet: choose the one that is meant, or take the name as a new customer.",
        }));
        return default;
    }

    private static DateTime DueOf(OrderDocument document, DocumentAnswers answers, Room room, DateTime nowUtc, List<DocumentQuestion> questions, List<string> notes)
    {
        if (answers.DueUtc is { } chosen)
        {
            return chosen;
        }

        if (document.DueText.Length == 0)
        {
            questions.Add(new(QuestionKind.Due, "due", "The document says no time by which the plates are wanted (NodeInfo/@LastEnd): type it."));
            return default;
        }

        if (ReadTime(document.DueText, room.Zone) is not { } read)
        {
            questions.Add(new(QuestionKind.Due, "due", $"{document.DueFrom} “{document.DueText}” is no date and time: type when the plates are due."));
            return default;
        }

        if (!read.HadOffset)
        {
            notes.Add($"{document.DueFrom} has no offset from UTC: read as the plant's time, {SiteClock.MomentWithYear(read.Utc, room.Zone)}.");
        }

        if (OrderRules.DueRefusal(read.Utc, room, nowUtc) is { } refusal)
        {
            questions.Add(new(QuestionKind.Due, "due", refusal));
        }

        return read.Utc;
    }

    /// <summary>An xs:dateTime; one without an offset is the plant's. Null for anything else, and for an hour that the clocks skip.</summary>
    internal static (DateTime Utc, bool HadOffset)? ReadTime(string text, TimeZoneInfo zone)
    {
        if (!Moment().IsMatch(text))
        {
            return null;
        }

        var offset = text.EndsWith('Z') || text[11..].AsSpan().ContainsAny('+', '-');
        if (offset)
        {
            return DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.None, out var moment) ? (moment.UtcDateTime, true) : null;
        }

        return DateTime.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.None, out var local) && !zone.IsInvalidTime(local)
            ? (SiteClock.ToUtc(local, zone), false)
            : null;
    }

    private static int CopiesOf(OrderDocument document, DocumentAnswers answers, List<DocumentQuestion> questions)
    {
        if (answers.Copies is { } chosen)
        {
            return chosen;
        }

        var amounts = document.Plates.Select(p => p.Amount).Distinct().ToList();
        if (amounts is [{ } same])
        {
            return same;
        }

        questions.Add(new(QuestionKind.Copies, "copies", document.Doubts.FirstOrDefault(d => d.Key == "amount")?.Sentence
            ?? $"It asks for different numbers of plates ({string.Join(", ", document.Plates.Take(12).Select(p => $"{p.Colour} {p.Amount}"))}). An order here has the same number of each colour: choose it."));
        return amounts.Max() ?? 1;
    }

    private static bool Same(string a, string b) => a.Equals(b.Trim(), StringComparison.OrdinalIgnoreCase);

    private static string Number(double number) => number.ToString("0.####", CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,9})?(Z|[+-]\d\d:\d\d)?$")]
    private static partial Regex Moment();
}

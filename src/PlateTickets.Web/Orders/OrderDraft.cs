using System.Globalization;
using System.Text.Json;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Orders;

/// <summary>What was entered into the order form, as the browser's tab keeps it until the order is saved. Files are not in it, only their names.</summary>
internal sealed record OrderDraft
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web);

    public string Customer { get; init; } = "";

    public string Title { get; init; } = "";

    public int PressId { get; init; }

    public int CylinderId { get; init; }

    public RepeatForm Repeat { get; init; } = new();

    public double? RepeatMm { get; init; }

    public int MaterialId { get; init; }

    public DateTime? DueDate { get; init; }

    public string DueTime { get; init; } = "";

    /// <summary>As it was typed.</summary>
    public string Copies { get; init; } = "";

    public IReadOnlyList<string> Files { get; init; } = [];

    private bool IsEmpty => Customer.Trim().Length == 0 && Title.Trim().Length == 0 && PressId == 0 && Files.Count == 0;

    /// <summary>As text; null while nothing was entered.</summary>
    public static string? Write(OrderForm form, IEnumerable<string> files)
    {
        var draft = new OrderDraft
        {
            Customer = form.CustomerText,
            Title = form.Title,
            PressId = form.Press?.Id ?? 0,
            CylinderId = form.Cylinder?.Id ?? 0,
            Repeat = form.Repeat,
            RepeatMm = form.RepeatMm,
            MaterialId = form.MaterialId,
            DueDate = form.DueDate,
            DueTime = form.DueTime,
            Copies = form.Copies.ToString(CultureInfo.InvariantCulture),
            Files = [.. files],
        };
        return draft.IsEmpty ? null : JsonSerializer.Serialize(draft, Json);
    }

    /// <summary>Null where nothing was kept.</summary>
    public static OrderDraft? Read(string? text)
    {
        try
        {
            return text is not null && JsonSerializer.Deserialize<OrderDraft>(text, Json) is { IsEmpty: false } draft ? draft : null;
        }
        catch (JsonException)
        {
            // An earlier version of the page kept something else there.
            return null;
        }
    }

    /// <summary>The form with what was entered; what the room does not have any more stays empty.</summary>
    public OrderForm ToForm(Room room, Tickets.Orders.Customer? customer, DateTime usualDue)
    {
        var form = new OrderForm { Customer = customer, CustomerText = Customer, Title = Title, DueDate = DueDate ?? usualDue, Repeat = Repeat };
        form.Copies = int.TryParse(Copies, NumberStyles.None, CultureInfo.InvariantCulture, out var copies) && copies is >= 1 and <= OrderRules.MostCopies ? copies : form.Copies;
        form.DueTime = DueTime.Length > 0 ? DueTime : form.DueTime;
        form.ChoosePress(room.Presses.FirstOrDefault(p => p.Id == PressId));
        form.Cylinder = form.Press?.Cylinders.Find(c => c.Id == CylinderId);
        form.RepeatMm = RepeatMm;
        form.MaterialId = room.Materials.ContainsKey(MaterialId) ? MaterialId : form.MaterialId;
        return form;
    }
}

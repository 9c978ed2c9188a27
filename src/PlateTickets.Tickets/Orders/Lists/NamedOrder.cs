using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Orders.Lists;

/// <summary>An order as a list or another program gives it: customer, press, cylinder and material by their names, in any case.</summary>
/// <param name="Customer">A name that is not known yet becomes a new customer.</param>
/// <param name="Title">What the customer calls the job.</param>
/// <param name="Press">The press, by its name.</param>
/// <param name="Cylinder">One of its cylinders; null when the repeat is given.</param>
/// <param name="RepeatMm">Printed length of one turn in mm; null when the cylinder is given.</param>
/// <param name="Material">The plate material; null for the press's usual one.</param>
/// <param name="DueUtc">When the plates are due.</param>
/// <param name="Copies">Plates of each colour.</param>
public sealed record NamedOrder(string Customer, string Title, string Press, string? Cylinder, double? RepeatMm, string? Material, DateTime DueUtc, int Copies)
{
    /// <summary>The order with the ids of the room, or null with a sentence for each name that the room does not know.</summary>
    /// <param name="room">Its presses, cylinders and materials.</param>
    /// <param name="customers">Ids of the customers by name, as far as they are known.</param>
    /// <param name="errors">Takes field names of <see cref="NewOrder"/> and sentences.</param>
    public NewOrder? Resolve(Room room, IReadOnlyDictionary<string, int> customers, Dictionary<string, string> errors)
    {
        var press = room.Presses.FirstOrDefault(p => Same(p.Name, Press));
        if (press is null)
        {
            errors[nameof(NewOrder.PressId)] = $"There is no press “{Press}”. Presses: {string.Join(", ", room.Presses.Select(p => p.Name))}.";
        }

        var cylinder = Cylinder is null ? null : press?.Cylinders.Find(c => Same(c.Name, Cylinder));
        if (press is not null && Cylinder is not null && cylinder is null)
        {
            errors[nameof(NewOrder.CylinderId)] = $"{press.Name} has no cylinder “{Cylinder}”. It has: {string.Join(", ", press.Cylinders.Select(c => c.Name))}.";
        }

        var material = Material is null ? null : room.Materials.Values.FirstOrDefault(m => Same(m.Name, Material));
        if (Material is not null && material is null)
        {
            errors[nameof(NewOrder.MaterialId)] = $"There is no material “{Material}”. Materials: {string.Join(", ", room.Materials.Values.Select(m => m.Name))}.";
        }

        var customer = Customer.Trim();
        return errors.Count > 0 ? null : new NewOrder
        {
            CustomerId = customers.GetValueOrDefault(customer),
            NewCustomer = customer,
            Title = Title,
            PressId = press!.Id,
            CylinderId = cylinder?.Id ?? 0,
            RepeatMm = RepeatMm,
            MaterialId = material?.Id ?? 0,
            DueUtc = DueUtc,
            Copies = Copies,
        };
    }

    /// <summary>What lists and programs call a field of <see cref="NewOrder"/>.</summary>
    public static string FieldName(string field) => field switch
    {
        nameof(NewOrder.CustomerId) => "customer",
        nameof(NewOrder.Title) => "title",
        nameof(NewOrder.PressId) => "press",
        nameof(NewOrder.CylinderId) => "cylinder",
        nameof(NewOrder.MaterialId) => "material",
        nameof(NewOrder.DueUtc) => "due",
        nameof(NewOrder.Copies) => "copies",
        _ => field,
    };

    private static bool Same(string a, string b) => a.Equals(b.Trim(), StringComparison.OrdinalIgnoreCase);
}

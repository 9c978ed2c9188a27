using PlateTickets.Process;
using PlateTickets.Process.Distortion;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Orders;

/// <summary>What an order must be before it is saved.</summary>
public static class OrderRules
{
    public const int MostCopies = 50;
    public const int MostPlates = 400;

    /// <summary>Every mistake at once: field name and sentence. Empty when the order is right.</summary>
    public static Dictionary<string, string> Check(NewOrder order, Room room, DateTime nowUtc)
    {
        var errors = new Dictionary<string, string>();
        if (order.CustomerId == 0 && string.IsNullOrWhiteSpace(order.NewCustomer))
        {
            errors[nameof(NewOrder.CustomerId)] = "Choose a customer, or type a new one's name.";
        }

        if (string.IsNullOrWhiteSpace(order.Title))
        {
            errors[nameof(NewOrder.Title)] = "Give the job a title that the customer would recognise.";
        }
        else if (order.Title.Length > 200)
        {
            errors[nameof(NewOrder.Title)] = $"The title has {order.Title.Length} characters; 200 fit on the traveler.";
        }

        if (DueRefusal(order.DueUtc, room, nowUtc) is { } refusal)
        {
            errors[nameof(NewOrder.DueUtc)] = refusal;
        }

        if (order.Copies is < 1 or > MostCopies)
        {
            errors[nameof(NewOrder.Copies)] = $"Copies must be 1 to {MostCopies}; it is the number of plates of each colour.";
        }

        CheckPress(order, room, errors);
        return errors;
    }

    /// <summary>Why a due time cannot be; null for a good one.</summary>
    public static string? DueRefusal(DateTime dueUtc, Room room, DateTime nowUtc) =>
        dueUtc <= nowUtc ? $"Due {SiteClock.MomentWithYear(dueUtc, room.Zone)} is in the past: choose a later date or time."
        : dueUtc > nowUtc.AddDays(366) ? $"Due {SiteClock.MomentWithYear(dueUtc, room.Zone)} is more than a year away: check the year."
        : null;

    /// <summary>The repeat in micrometres that the order's cylinder or its typed repeat gives.</summary>
    public static int RepeatUm(NewOrder order, Room room)
    {
        var press = room.Presses.First(p => p.Id == order.PressId);
        return press.Cylinders.Find(c => c.Id == order.CylinderId)?.RepeatUm ?? (int)Math.Round(order.RepeatMm!.Value * 1000);
    }

    public static int MaterialId(NewOrder order, Room room) =>
        order.MaterialId != 0 ? order.MaterialId : room.Presses.First(p => p.Id == order.PressId).UsualMaterialId;

    private static void CheckPress(NewOrder order, Room room, Dictionary<string, string> errors)
    {
        var press = room.Presses.FirstOrDefault(p => p.Id == order.PressId);
        if (press is null)
        {
            errors[nameof(NewOrder.PressId)] = "Choose the press that will run the job.";
            return;
        }

        if (!room.Materials.TryGetValue(MaterialId(order, room), out var material))
        {
            errors[nameof(NewOrder.MaterialId)] = "Choose the plate material.";
            return;
        }

        if (order.CylinderId != 0 && press.Cylinders.TrueForAll(c => c.Id != order.CylinderId))
        {
            errors[nameof(NewOrder.CylinderId)] = $"{press.Name} has no such cylinder: choose one of its own.";
        }
        else if (order.CylinderId == 0 && order.RepeatMm is not (> 0 and < 5000))
        {
            errors[nameof(NewOrder.CylinderId)] = "Choose the cylinder, or type the repeat in mm (above 0, below 5000).";
        }
        else
        {
            CheckRepeat(RepeatUm(order, room) / 1000.0, material, errors);
        }
    }

    private static void CheckRepeat(double repeatMm, Recipes.Material material, Dictionary<string, string> errors)
    {
        try
        {
            PlateDistortion.FlatLengthMm(repeatMm, material.ThicknessUm / 1000.0, material.BaseUm / 1000.0);
        }
        catch (PlateRoomException refused)
        {
            errors[nameof(NewOrder.CylinderId)] = refused.Message;
        }
    }
}

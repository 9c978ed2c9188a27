using System.Globalization;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Orders;

/// <summary>What the CSR has typed so far. A plain class: the page binds to it, the order is made from it.</summary>
internal sealed class OrderForm
{
    public Customer? Customer { get; set; }

    /// <summary>Typed text of the customer field: a name that is not in the list becomes a new customer.</summary>
    public string CustomerText { get; set; } = "";

    public string Title { get; set; } = "";

    public Press? Press { get; set; }

    public Cylinder? Cylinder { get; set; }

    /// <summary>The repeat in mm when no cylinder is chosen.</summary>
    public double? RepeatMm { get; set; }

    public RepeatForm Repeat { get; init; } = new();

    public int MaterialId { get; set; }

    public DateTime? DueDate { get; set; }

    /// <summary>"14:00".</summary>
    public string DueTime { get; set; } = "14:00";

    public int Copies { get; set; } = 1;

    /// <summary>Takes customer, title, press, repeat, material and copies of an earlier job where nothing was entered yet.</summary>
    public void FillFrom(EarlierJob job, Room room)
    {
        if (CustomerText.Trim().Length == 0)
        {
            (Customer, CustomerText) = (new Customer { Id = job.CustomerId, Name = job.Customer }, job.Customer);
        }

        Title = Title.Trim().Length == 0 ? job.Title : Title;
        if (Press is null && room.Presses.FirstOrDefault(p => p.Id == job.PressId) is { } press)
        {
            ChoosePress(press);
            Cylinder = press.Cylinders.Find(c => c.RepeatUm == job.RepeatUm);
            RepeatMm = Cylinder is null ? job.RepeatUm / 1000.0 : null;
            MaterialId = room.Materials.ContainsKey(job.MaterialId) ? job.MaterialId : MaterialId;
        }

        Copies = Copies == 1 ? job.Copies : Copies;
    }

    /// <summary>Choosing a press brings its first cylinder and its usual material.</summary>
    public void ChoosePress(Press? press)
    {
        Press = press;
        Cylinder = press?.Cylinders.FirstOrDefault();
        RepeatMm = null;
        MaterialId = press?.UsualMaterialId ?? 0;
    }

    /// <summary>The order, or the sentences of what is missing before it can be checked at all.</summary>
    public NewOrder? ToOrder(Room room, Dictionary<string, string> errors)
    {
        if (DueDate is not { } date)
        {
            errors[nameof(NewOrder.DueUtc)] = "Choose the day on which the set must be done.";
            return null;
        }

        if (!TimeOnly.TryParseExact(DueTime, ["HH:mm", "H:mm", "HH:mm:ss"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var time))
        {
            errors[nameof(NewOrder.DueUtc)] = $"“{DueTime}” is no time of day: type it like 14:30.";
            return null;
        }

        var known = Customer is not null && Customer.Name.Equals(CustomerText.Trim(), StringComparison.OrdinalIgnoreCase);
        return new NewOrder
        {
            CustomerId = known ? Customer!.Id : 0,
            NewCustomer = known ? "" : CustomerText.Trim(),
            Title = Title,
            PressId = Press?.Id ?? 0,
            CylinderId = Cylinder?.Id ?? 0,
            RepeatMm = RepeatMm,
            MaterialId = MaterialId,
            DueUtc = SiteClock.ToUtc(date.Date + time.ToTimeSpan(), room.Zone),
            Copies = Copies,
        };
    }
}

/// <summary>A dropped file: on its way, read, or refused.</summary>
internal sealed class DroppedFile(string name, long bytes)
{
    private readonly CancellationTokenSource _leftOut = new();
    private ReadSeparation? _separation;

    public string Name { get; } = name;

    /// <summary>Cancelled when the person leaves the file out while it is still being read.</summary>
    public CancellationToken LeftOut => _leftOut.Token;

    public long Bytes { get; } = bytes;

    public long Read { get; set; }

    /// <summary>Share of the image that is read, 0 to 1, once all bytes have arrived.</summary>
    public double Looked { get; set; }

    /// <summary>Row of the list of arrived files that it came from; 0 for a dropped file.</summary>
    public int ArrivedId { get; init; }

    /// <summary>The preview as an address that carries it; empty before it was read.</summary>
    public string Picture { get; private set; } = "";

    public ReadSeparation? Separation
    {
        get => _separation;
        set
        {
            // Renaming makes a new record; the picture stays.
            if (_separation is null && value?.Facts.Image is { } image)
            {
                Picture = $"data:image/png;base64,{Convert.ToBase64String(image.PreviewPng.Span)}";
            }

            _separation = value;
        }
    }

    /// <summary>The sentence when the file is no separation.</summary>
    public string? Refusal { get; set; }

    /// <summary>The colour, which a person may correct.</summary>
    public string Colour
    {
        get => Separation?.Facts.Colour ?? "";
        set
        {
            if (Separation is { } read && value.Trim() != read.Facts.Colour)
            {
                Separation = read with { Facts = read.Facts with { Colour = value.Trim(), ColourFrom = Tickets.Orders.Separations.ColourSource.Order } };
            }
        }
    }

    public Task LeaveOutAsync() => _leftOut.CancelAsync();

    /// <summary>Why a length that looks wrong is taken all the same.</summary>
    public string AcceptedBecause
    {
        get => Separation?.AcceptedBecause ?? "";
        set => Separation = Separation is { } read ? read with { AcceptedBecause = value.Trim() } : null;
    }

    public int Percent => Looked > 0 ? (int)(Looked * 100) : Bytes == 0 ? 100 : (int)(Math.Min(Read, Bytes) * 100 / Bytes);
}

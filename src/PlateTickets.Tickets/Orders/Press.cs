using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Recipes;

namespace PlateTickets.Tickets.Orders;

/// <summary>A press: it brings its print cylinders (and so the repeat) and the material that it usually runs.</summary>
public sealed class Press : IAudited
{
    public int Id { get; set; }

    public required string Name { get; set; }

    public int UsualMaterialId { get; set; }

    public Material? UsualMaterial { get; set; }

    public List<Cylinder> Cylinders { get; set; } = [];

    public string AuditKey => Name;
}

/// <summary>A print cylinder or sleeve of a press: the repeat is the printed length of one turn, in micrometres.</summary>
public sealed class Cylinder : IAudited
{
    public int Id { get; set; }

    public int PressId { get; set; }

    public required string Name { get; set; }

    public int RepeatUm { get; set; }

    public string AuditKey => Name;
}

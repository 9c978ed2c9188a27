using System.Collections.Immutable;
using PlateTickets.Planning.Nesting;

namespace PlateTickets.Web.Layouts;

/// <summary>One sheet of the layout at work: what it is taken from, and its plates. Never changed, so that every step can be undone.</summary>
public sealed record DraftSheet(int Choice, long Width, long Length, ImmutableArray<PlacedPlate> Plates)
{
    public NestSheet Nested => new(Choice, Width, Length, Plates);

    public DraftSheet Without(int plate) => this with { Plates = Plates.RemoveAll(p => p.PlateId == plate) };

    public DraftSheet With(PlacedPlate plate) => this with { Plates = Plates.Add(plate) };
}

using System.Globalization;
using Microsoft.AspNetCore.Components;

namespace PlateTickets.Web.Timeline;

public sealed partial class TimelineRow
{
    private TimelineRowModel? _drawn;
    private bool _stale = true;

    [Parameter, EditorRequired]
    public required TimelineRowModel Row { get; set; }

    /// <summary>How often this row was drawn; the tests ask.</summary>
    internal int Draws { get; private set; }

    protected override bool ShouldRender() => _stale;

    protected override void OnParametersSet()
    {
        _stale = !ReferenceEquals(_drawn, Row);
        _drawn = Row;
    }

    protected override void OnAfterRender(bool firstRender) => Draws++;

    private static string Px(double px) => px.ToString("0.#", CultureInfo.InvariantCulture);
}

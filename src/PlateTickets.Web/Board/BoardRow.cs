using Microsoft.AspNetCore.Components;

namespace PlateTickets.Web.Board;

/// <summary>A row of the board. It is drawn again only when it became another one: a row that did not change is the same object as before.</summary>
public abstract class BoardRow<TRow> : ComponentBase
    where TRow : class
{
    private TRow? _drawn;
    private bool _stale = true;

    [Parameter, EditorRequired]
    public required TRow Row { get; set; }

    /// <summary>What can be done from the row; null where the person may not, and on the wall.</summary>
    [Parameter]
    public BoardActions? Actions { get; set; }

    /// <summary>How often it was drawn: the tests count.</summary>
    internal int Drawn { get; private set; }

    protected override bool ShouldRender() => _stale;

    protected override void OnParametersSet()
    {
        _stale = !ReferenceEquals(_drawn, Row);
        _drawn = Row;
        Drawn += _stale ? 1 : 0;
    }
}

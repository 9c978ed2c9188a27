namespace PlateTickets.Web.Board;

/// <summary>What a manager does from the board.</summary>
public enum BoardDeed
{
    Rush = 1,
    InTurn = 2,
    Hold = 3,
    GoOn = 4,
    Down = 5,
    Up = 6,
    People = 7,
}

/// <summary>A deed and on what.</summary>
/// <param name="Deed">What is to be done.</param>
/// <param name="Id">The ticket or the machine; 0 for people.</param>
/// <param name="Name">What it is called.</param>
public sealed record BoardAsk(BoardDeed Deed, int Id, string Name);

/// <summary>Opens the panel that shows what a deed does. One for each page, for as long as the page lives, so that rows need no new handlers.</summary>
public sealed class BoardActions(Action<BoardAsk> open)
{
    public void Open(BoardDeed deed, int id, string name) => open(new BoardAsk(deed, id, name));
}

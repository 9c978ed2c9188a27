using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Orders;

/// <summary>Asks the plan when an order would be done, again whenever its sheets change.</summary>
public sealed partial class PromisePanel : IDisposable
{
    private const int Shown = 6;

    // Somebody who types should not start a simulation with each key.
    private static readonly TimeSpan Quiet = TimeSpan.FromMilliseconds(250);

    private CancellationTokenSource? _asked;
    private (int Material, IReadOnlyList<AskedSheet> Sheets)? _about;
    private OrderPromise? _promise;
    private string? _refusal;
    private bool _asking;

    [Parameter, EditorRequired]
    public required Room Room { get; set; }

    [Parameter, EditorRequired]
    public int MaterialId { get; set; }

    /// <summary>The sheets as far as they are known.</summary>
    [Parameter, EditorRequired]
    public required IReadOnlyList<AskedSheet> Sheets { get; set; }

    /// <summary>Somebody chose a time (UTC).</summary>
    [Parameter]
    public EventCallback<DateTime> Use { get; set; }

    [Inject]
    public required PromiseDesk Desk { get; set; }

    [Inject]
    public required BoardState Board { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    public void Dispose()
    {
        _asked?.Cancel();
        _asked?.Dispose();
    }

    protected override async Task OnParametersSetAsync()
    {
        if (_about is { } known && known.Material == MaterialId && known.Sheets.SequenceEqual(Sheets))
        {
            return;
        }

        _about = (MaterialId, Sheets);
        _asked?.Cancel();
        _asked?.Dispose();
        _asked = new CancellationTokenSource();
        await AskAsync(_asked.Token);
    }

    private async Task AskAsync(CancellationToken cancel)
    {
        _asking = true;
        try
        {
            await Task.Delay(Quiet, cancel);
            var promise = await Desk.AskAsync(MaterialId, Sheets, cancel);
            cancel.ThrowIfCancellationRequested();
            (_promise, _refusal, _asking) = (promise, null, false);
        }
        catch (PlateRoomException refused)
        {
            (_promise, _refusal, _asking) = (null, refused.Message, false);
        }
        catch (OperationCanceledException)
        {
            // The order changed meanwhile: the newer question is on its way.
        }
    }

    private static string RushText(OrderPromise promise) => promise.Rush.Pushed.Count switch
    {
        _ when promise.Rush.PlannedUtc >= promise.InTurn.PlannedUtc => "A rush would not be faster: it is not the others that it waits for.",
        0 => "As a rush it makes no other ticket late.",
        1 => "As a rush it makes one other ticket late:",
        var count => $"As a rush it makes {count} other tickets late:",
    };

    private string At(DateTime utc) => SiteClock.Near(utc, Clock.GetUtcNow().UtcDateTime, Room.Zone);

    private string Name(int ticketId) =>
        Board.Now.Sheets.Values.SelectMany(s => s.Tickets).FirstOrDefault(t => t.Id == ticketId) is { } ticket
            ? $"{TrackingNumber.ForPeople(ticket.Number)} {ticket.Customer}"
            : "a ticket";
}

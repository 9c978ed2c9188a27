using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.Options;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Orders;
using PlateTickets.Web.Exchange.Mail;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Exchange;

/// <summary>Mail address and reference of a ticket's customer.</summary>
public sealed partial class CustomerPanel
{
    private string _mail = "";
    private string _reference = "";
    private string _refusal = "";
    private string _told = "";
    private int _shown = -1;
    private bool _busy;

    [Parameter, EditorRequired]
    public required Order Order { get; set; }

    /// <summary>Something was saved: the page reads the ticket again.</summary>
    [Parameter]
    public EventCallback Changed { get; set; }

    [Inject]
    public required OrderContacts Contacts { get; set; }

    [Inject]
    public required IOptions<MailOptions> Mail { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    private string Summary => (Order.ContactMail, Order.CustomerReference) switch
    {
        ("", "") => "nobody is told",
        ("", var reference) => $"nobody is told; their reference is {reference}",
        (var mail, "") => $"{mail} is told",
        var (mail, reference) => $"{mail} is told; their reference is {reference}",
    };

    // What somebody types stays when a scan elsewhere draws the page anew.
    protected override void OnParametersSet()
    {
        if (_shown != Order.Id)
        {
            (_shown, _mail, _reference, _refusal, _told) = (Order.Id, Order.ContactMail, Order.CustomerReference, "", "");
        }
    }

    private async Task SaveAsync()
    {
        (_busy, _refusal, _told) = (true, "", "");
        try
        {
            Viewer.Require(Right.EnterOrders);
            await Contacts.SetAsync(Order.Number, _mail, _reference, Viewer.Name);
            (_mail, _reference) = (_mail.Trim(), _reference.Trim());
            _told = _mail.Length == 0 ? "Saved. Nobody is told of this order." : $"Saved. {_mail} is told of this order.";
            await Changed.InvokeAsync();
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }
        finally
        {
            _busy = false;
        }
    }
}

using PlateTickets.Process.Units;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Tests;
using PlateTickets.Web.Audit;

namespace PlateTickets.Web.Tests.Pages;

public sealed class AuditTextTests : IAsyncLifetime
{
    private RoomFixture _room = null!;
    private AuditText _text = null!;

    public async Task InitializeAsync()
    {
        _room = await RoomFixture.CreateAsync();
        _text = new AuditText(await _room.Rooms.GetAsync(), LengthSystem.Metric, new HashSet<string> { "State" });
    }

    public async Task DisposeAsync() => await _room.DisposeAsync();

    [Theory]
    [InlineData("Customer", "Northmere", "(new)", null, null, "Ada added customer Northmere.")]
    [InlineData("Customer", "Northmere", "(deleted)", "{\"Name\":\"Northmere\"}", null, "Ada deleted customer Northmere, which was: name Northmere.")]
    [InlineData("ShiftEntry", "Early shift", "Operators", null, "3", "Ada set the operators of shift Early shift to “3”.")]
    [InlineData("Sheet", "x", "HoldReason", "missing ink", "", "Ada cleared the hold reason of sheet x, which was “missing ink”.")]
    [InlineData("Site", "Room", "KnifeGapUm", "10000", "12000", "Ada changed the knife gap of site Room from 10 mm to 12 mm.")]
    [InlineData("Order", "x", "DueUtc", "2026-11-26T14:00:00.0000000Z", "2026-11-27T14:00:00.0000000Z", "Ada changed the due of order x from Thu 26 Nov 2026, 14:00 to Fri 27 Nov 2026, 14:00.")]
    [InlineData("Account", "ada", "PasswordHash", "(secret)", "(secret)", "Ada changed the password hash of account ada. Its value is not kept.")]
    [InlineData("Account", "ada", "(signed in)", null, "from the office", "Ada signed in (account ada): from the office.")]
    [InlineData("EquipmentDowntime", "equipment 1", "(new)", null, null, "Ada added equipment downtime Frame 1.")]
    [InlineData("RecipeRevision", "r", "Settings", "{\"Face\":{\"Dose\":1,\"Same\":2}}", "{\"Face\":{\"Dose\":3,\"Same\":2}}", "Ada changed the settings of recipe revision r: face, dose 1 → 3.")]
    [InlineData("Ticket", "x", "State", "WaitingForFiles", "Ready", "Ada changed the state of ticket x from “waiting for files” to “ready”.")]
    [InlineData("Order", "x", "Title", "{broken", "b", "Ada changed the title of order x from “{broken” to “b”.")]
    public void Entry_IsASentence(string record, string key, string field, string? from, string? to, string sentence) =>
        Assert.Equal(sentence, _text.Sentence(new AuditEntry { By = "Ada", Record = record, Key = key, Field = field, From = from, To = to }));
}

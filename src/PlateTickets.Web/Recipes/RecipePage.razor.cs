using System.Globalization;
using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Recipes;

/// <summary>A material's recipe: its revisions, a draft to work on, release and withdrawal with a reason, and what open sheets it touches.</summary>
public sealed partial class RecipePage
{

    private Room? _room;
    private Material? _material;
    private List<RecipeRevision> _revisions = [];
    private RecipeRevision? _newest;
    private RecipeRevision? _before;
    private RecipeRevision? _after;
    private RecipeForm? _form;
    private List<TouchedSheet> _touched = [];
    private RecipeRevision? _asked;
    private Asked _asking;
    private string _reason = "";
    private string? _told;
    private bool _refused;

    private enum Asked
    {
        Release,
        Withdraw,
    }

    [Parameter]
    public int MaterialId { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required RecipeBook Recipes { get; set; }

    private int NotStarted => _touched.Count(t => !t.Started);

    protected override Task OnParametersSetAsync() => ReadAsync();

    private async Task ReadAsync()
    {
        var room = await Rooms.GetAsync();
        _material = room.Materials.GetValueOrDefault(MaterialId);
        _revisions = [.. room.Revisions.Values.Where(r => r.MaterialId == MaterialId).OrderByDescending(r => r.Number)];
        _newest = room.Released(MaterialId);
        var draft = _revisions.Find(r => r.State == RecipeState.Draft);
        _after = draft ?? _newest ?? _revisions.FirstOrDefault();
        _before = draft is not null ? _newest ?? _after : _revisions.Find(r => r.Number < _after?.Number) ?? _after;
        _form = (draft ?? _newest) is { } from ? new RecipeForm(from.Settings, Viewer.Units) : null;
        _touched = _newest is null ? [] : await Recipes.TouchedAsync(_newest.Id);
        _room = room;
    }

    private void Ask(RecipeRevision revision, Asked what)
    {
        _asked = revision;
        _asking = what;
        _reason = "";
        _told = null;
    }

    private Task AnswerAsync() => DoAsync(async () =>
    {
        var (asked, release) = (_asked!, _asking == Asked.Release);
        await (release ? Recipes.ReleaseAsync(asked.Id, Viewer.Name, _reason) : Recipes.WithdrawAsync(asked.Id, Viewer.Name, _reason));
        _asked = null;
        return $"Revision {asked.Number} is {(release ? "released" : "withdrawn")}.";
    });

    private Task SaveDraftAsync() => DoAsync(async () =>
    {
        await Recipes.DraftAsync(MaterialId, _form!.ToSettings(), Viewer.Name);
        return "The draft is kept. Compare it below, then release it.";
    });

    private Task RetimeAsync() => DoAsync(async () =>
    {
        var count = await Recipes.RetimeAsync(_newest!.Id, Viewer.Name);
        return $"{count} {(count == 1 ? "sheet is" : "sheets are")} timed anew with revision {_newest.Number}; print their travelers again.";
    });

    private async Task DoAsync(Func<Task<string>> work)
    {
        try
        {
            Viewer.Require(Right.KeepRecipes);
            _told = await work();
            _refused = false;
            await ReadAsync();
        }
        catch (PlateRoomException refused)
        {
            _told = refused.Message;
            _refused = true;
        }
    }

    private RecipeRevision? Pick(ChangeEventArgs e) =>
        _revisions.Find(r => r.Id == int.Parse((string)e.Value!, CultureInfo.InvariantCulture));

    private string StateWord(RecipeRevision revision) => revision == _newest ? "released, in use" : revision.State.ToString().ToLowerInvariant();
}

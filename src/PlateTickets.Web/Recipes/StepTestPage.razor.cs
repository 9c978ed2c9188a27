using System.Globalization;
using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Process.Exposure;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Recipes;

/// <summary>One step test: points, curve, and the time for a wanted floor, which can become a draft recipe.</summary>
public sealed partial class StepTestPage
{
    private Room? _room;
    private StepTestEntry? _entry;
    private StepTest? _test;
    private FloorCurve? _curve;
    private FloorTime? _time;
    private double _floor;
    private string _floorText = "";
    private string? _refusal;

    [Parameter]
    public int Id { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required StepTests Tests { get; set; }

    [Inject]
    public required RecipeBook Recipes { get; set; }

    [Inject]
    public required NavigationManager Navigation { get; set; }

    private string Between => _time is { LowSeconds: { } low, HighSeconds: { } high }
        ? $", with 95 % confidence {Durations.ForPeople(low)} to {Durations.ForPeople(high)}"
        : ", but the steps scatter too much to say how sure";

    protected override async Task OnParametersSetAsync()
    {
        _entry = await Tests.FindAsync(Id);
        if (_entry is not null)
        {
            _test = _entry.ToTest(_entry.Material!);
            _curve = _test.Curve();
        }

        _room = await Rooms.GetAsync();
        _floor = _entry is null ? 0 : _room.Released(_entry.MaterialId)?.Settings.BackExposure.FloorMm ?? _entry.Steps.Average(s => s.FloorMm);
        _floorText = Viewer.Units.Thickness(_floor);
        Compute();
    }

    private void FloorTyped()
    {
        try
        {
            _floor = LengthText.Millimetres(_floorText, "The wanted floor", Viewer.Units);
            _refusal = null;
            Compute();
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }
    }

    private void Compute()
    {
        if (_curve is null)
        {
            return;
        }

        try
        {
            _refusal = null;
            _time = _curve.TimeFor(_floor, _entry!.IrradianceMwPerCm2, units: Viewer.Units);
        }
        catch (PlateRoomException refused)
        {
            _time = null;
            _refusal = refused.Message;
        }
    }

    private async Task DraftAsync()
    {
        var room = await Rooms.GetAsync();
        if (room.Released(_entry!.MaterialId) is not { } current)
        {
            _refusal = $"{_entry.Material!.Name} has no released recipe to begin from.";
            return;
        }

        try
        {
            Viewer.Require(Right.KeepRecipes);
            var back = current.Settings.BackExposure with
            {
                SecondsAtReference = Math.Round(_time!.Seconds, 1),
                ReferenceIrradianceMwPerCm2 = _entry.IrradianceMwPerCm2,
                FloorMm = _floor,
            };
            var doubt = _time.Extrapolated ? $"The back exposure time for a floor of {Viewer.Units.Thickness(_floor)} lies outside what step test {_entry.Id} tested." : "";
            await Recipes.DraftAsync(_entry.MaterialId, current.Settings with { BackExposure = back }, Viewer.Name, _entry.Id, doubt);
            Navigation.NavigateTo(Urls.Recipe(_entry.MaterialId.ToString(CultureInfo.InvariantCulture)));
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }
    }
}

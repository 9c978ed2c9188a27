using System.Globalization;
using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Recipes;

public sealed partial class StepTestsPage
{
    private const int Shown = 50;
    private const int FirstRows = 6;

    private readonly List<Row> _rows = [.. Enumerable.Range(0, FirstRows).Select(_ => new Row())];
    private Room? _room;
    private List<Equipment> _frames = [];
    private List<StepTestEntry>? _tests;
    private int _materialId;
    private int _frameId;
    private double _irradiance;
    private string _lot = "";
    private string? _refusal;

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required StepTests Tests { get; set; }

    [Inject]
    public required NavigationManager Navigation { get; set; }

    protected override async Task OnInitializedAsync()
    {
        _room = await Rooms.GetAsync();
        _frames = [.. _room.Equipment.Where(e => e.Serves.Contains(Station.BackExposure))];
        _tests = await Tests.LatestAsync(Shown);
        _materialId = _room.Materials.Keys.FirstOrDefault();
        TakeFrame(_frames.FirstOrDefault()?.Id ?? 0);
    }

    private void FrameChosen(ChangeEventArgs e) => TakeFrame(int.Parse((string)e.Value!, CultureInfo.InvariantCulture));

    // The test is made with the lamps as they were read last, unless somebody types another value.
    private void TakeFrame(int id)
    {
        _frameId = id;
        _irradiance = _room!.Facts.GetValueOrDefault(id)?.BackLamps?.IrradianceMwPerCm2 ?? 0;
    }

    private async Task SaveAsync()
    {
        _refusal = null;
        try
        {
            Viewer.Require(Right.KeepRecipes);
            var id = await Tests.AddAsync(new StepTestEntry
            {
                MaterialId = _materialId,
                EquipmentId = _frameId,
                IrradianceMwPerCm2 = _irradiance,
                Lot = _lot.Trim(),
                MadeBy = Viewer.Name,
                Steps = [.. _rows.Where(r => r.Seconds is not null || !string.IsNullOrWhiteSpace(r.Floor))
                    .Select(r => new StepTestStep { Seconds = r.Seconds ?? 0, FloorMm = LengthText.Millimetres(r.Floor, "The measured floor", Viewer.Units) })],
            });
            Navigation.NavigateTo(Urls.StepTest(id.ToString(CultureInfo.InvariantCulture)));
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }
    }

    private sealed class Row
    {
        public double? Seconds { get; set; }

        public string Floor { get; set; } = "";
    }
}

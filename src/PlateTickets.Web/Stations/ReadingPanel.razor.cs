using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using PlateTickets.Process;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Stations;

public sealed partial class ReadingPanel
{
    private readonly Dictionary<ReadingKind, string> _typed = [];
    private readonly HashSet<PlateDefect> _seen = [];
    private string _reason = "";
    private int _sheetId;

    [Parameter, EditorRequired]
    public required SheetView View { get; set; }

    /// <summary>The station whose readings are taken.</summary>
    [Parameter, EditorRequired]
    public Station At { get; set; }

    [Parameter, EditorRequired]
    public required Equipment Machine { get; set; }

    [Parameter, EditorRequired]
    public required Room Room { get; set; }

    [Parameter, EditorRequired]
    public required string By { get; set; }

    /// <summary>Runs something and tells what came of it.</summary>
    [Parameter, EditorRequired]
    public required Func<Func<Task<string>>, Task> Act { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required ReadingDesk Readings { get; set; }

    [Inject]
    public required StageDesk Stages { get; set; }

    [Inject]
    public required RemakeDesk Remakes { get; set; }

    private ReadingPlace Place => new(View.Sheet.Number, At, Machine.Id);

    protected override void OnParametersSet()
    {
        if (_sheetId != View.Sheet.Id)
        {
            _sheetId = View.Sheet.Id;
            _typed.Clear();
            _seen.Clear();
            _reason = "";
        }
    }

    private string Unit(ReadingKind kind) => kind == ReadingKind.Lamps ? "mW/cm²" : Viewer.Units.Unit();

    private string WhatIsRight(ReadingKind kind)
    {
        if (kind == ReadingKind.Lot)
        {
            return View.Sheet.Lot.Length > 0 ? $"planned: {View.Sheet.Lot}" : "none planned";
        }

        var (from, to) = ReadingRules.Limits(kind, Room.Revisions[View.Sheet.RecipeRevisionId].Settings, View.Sheet.Material!);
        return $"right: {ReadingRules.Say(kind, from, to, Viewer.Units)}";
    }

    private string Last(ReadingKind kind) => View.Readings.LastOrDefault(r => r.Kind == kind && r.Station == At) is not { } last ? "" : last.State switch
    {
        ReadingState.InLimits => $"✓ {last.Sentence}",
        ReadingState.Accepted => $"{last.Sentence} Accepted by {last.DecidedBy}: {last.Reason}",
        ReadingState.OnHold => $"{last.Sentence} On hold: {last.Reason}",
        ReadingState.Remade => $"{last.Sentence} Made again.",
        _ => last.Sentence,
    };

    private void Toggle(PlateDefect defect, bool seen)
    {
        if (seen)
        {
            _seen.Add(defect);
        }
        else
        {
            _seen.Remove(defect);
        }
    }

    private Task Key(KeyboardEventArgs e, ReadingKind kind) => e.Key == "Enter" ? KeepAsync(kind) : Task.CompletedTask;

    private Task KeepAsync(ReadingKind kind) => Act(async () =>
    {
        Viewer.Require(Right.WorkStations);
        var text = _typed.GetValueOrDefault(kind, "");
        var finding = kind switch
        {
            ReadingKind.Lot => await Readings.LotAsync(Place, text, By),
            ReadingKind.Lamps => await Readings.LampsAsync(Place, Figure(text), By),
            _ => await Readings.LengthAsync(Place, kind, LengthText.Millimetres(text, $"The {kind.Title().ToLowerInvariant()}", Viewer.Units), Viewer.Units, By),
        };
        _typed.Remove(kind);
        return finding.InLimits ? finding.Sentence : throw new PlateRoomException($"{finding.Sentence} Decide: accept it with a reason, make the sheet again, or put it on hold.");
    });

    private Task VisualAsync() => Act(async () =>
    {
        Viewer.Require(Right.WorkStations);
        var finding = await Readings.VisualAsync(Place, [.. _seen], By);
        _seen.Clear();
        return finding.InLimits ? finding.Sentence : throw new PlateRoomException($"{finding.Sentence} Decide: accept it with a reason, make the sheet again, or put it on hold.");
    });

    private Task AcceptAsync(StageReading reading) => Act(async () =>
    {
        Viewer.Require(Right.DecideStages);
        await Readings.AcceptAsync(reading.Id, _reason, By);
        _reason = "";
        return "Accepted: the sheet goes on.";
    });

    private Task HoldAsync(StageReading reading) => Act(async () =>
    {
        Viewer.Require(Right.WorkStations);
        await Stages.HoldAsync(View.Sheet.Number, reading.Sentence.TrimEnd('.'), By);
        return $"Sheet {TrackingNumber.ForPeople(View.Sheet.Number)} is on hold. Put it aside and ask the lead.";
    });

    private Task RemakeAsync(StageReading reading) => Act(async () =>
    {
        Viewer.Require(Right.WorkStations);
        return (await Remakes.RemakeAsync(new(View.Sheet.Number, [], PlateDefect.Other, reading.Sentence, reading.Station, reading.Station), By)).Sentence;
    });

    private static double Figure(string text) => double.TryParse(text.Trim().Replace(',', '.'), System.Globalization.NumberStyles.Float, System.Globalization.CultureInfo.InvariantCulture, out var value)
        ? value
        : throw new PlateRoomException($"“{text}” is no figure: type the irradiance in mW/cm², such as 14.5.");
}

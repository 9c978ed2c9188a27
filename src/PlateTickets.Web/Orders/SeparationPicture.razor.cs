using System.Globalization;
using Microsoft.AspNetCore.Components;
using PlateTickets.Process.Units;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Orders;

/// <summary>All lengths in mm; the box from the upper left corner.</summary>
public sealed partial class SeparationPicture
{
    private const double LongestPixels = 104;
    private const double ShortestPixels = 12;

    [Inject]
    public required Viewer Viewer { get; set; }

    [Parameter, EditorRequired]
    public string Source { get; set; } = "";

    [Parameter, EditorRequired]
    public string Name { get; set; } = "";

    [Parameter, EditorRequired]
    public double WidthMm { get; set; }

    [Parameter, EditorRequired]
    public double LengthMm { get; set; }

    /// <summary>0 to 1.</summary>
    [Parameter, EditorRequired]
    public double? Coverage { get; set; }

    [Parameter]
    public double BoxLeftMm { get; set; }

    [Parameter]
    public double BoxTopMm { get; set; }

    [Parameter]
    public double BoxWidthMm { get; set; }

    [Parameter]
    public double BoxLengthMm { get; set; }

    private string Frame
    {
        get
        {
            var scale = LongestPixels / Math.Max(WidthMm, LengthMm);
            return string.Create(
                CultureInfo.InvariantCulture, $"width:{Math.Max(ShortestPixels, WidthMm * scale):0}px;height:{Math.Max(ShortestPixels, LengthMm * scale):0}px");
        }
    }

    private string Box => string.Create(
        CultureInfo.InvariantCulture,
        $"left:{100 * BoxLeftMm / WidthMm:0.##}%;top:{100 * BoxTopMm / LengthMm:0.##}%;width:{100 * BoxWidthMm / WidthMm:0.##}%;height:{100 * BoxLengthMm / LengthMm:0.##}%");

    private string Description => Coverage == 0 ? $"Preview of {Name}: blank"
        : BoxWidthMm > 0 ? $"Preview of {Name}; its ink lies within {Viewer.Units.Size(BoxWidthMm, BoxLengthMm)}"
        : $"Preview of {Name}";
}

using MudBlazor;

namespace PlateTickets.Web.Shell;

/// <summary>MudBlazor's type and sizes. Its colours come from css/look.css by way of css/mud.css.</summary>
internal static class RoomTheme
{
    private static readonly string[] Font = ["Atkinson Hyperlegible Next", "system-ui", "sans-serif"];

    public static MudTheme Theme { get; } = new()
    {
        Typography = new Typography
        {
            Default = new DefaultTypography { FontFamily = Font, FontSize = "1rem", LineHeight = "1.45" },
            Button = new ButtonTypography { FontFamily = Font, TextTransform = "none", FontWeight = "600", FontSize = "1rem" },
            H1 = new H1Typography { FontFamily = Font, FontSize = "1.75rem", FontWeight = "700", LineHeight = "1.2" },
            H2 = new H2Typography { FontFamily = Font, FontSize = "1.25rem", FontWeight = "700", LineHeight = "1.3" },
            Body1 = new Body1Typography { FontFamily = Font, FontSize = "1rem" },
            Body2 = new Body2Typography { FontFamily = Font, FontSize = ".925rem" },
        },
        LayoutProperties = new LayoutProperties { DefaultBorderRadius = "6px", AppbarHeight = "56px" },
    };
}

using MudBlazor;

namespace PlateTickets.Web.Shell;

/// <summary>The project's own look: paper, ink and a deep green-blue, with a typeface made to keep look-alike characters apart.</summary>
internal static class RoomTheme
{
    private static readonly string[] Font = ["Atkinson Hyperlegible Next", "system-ui", "sans-serif"];

    public static MudTheme Theme { get; } = new()
    {
        PaletteLight = new PaletteLight
        {
            Primary = "#0b5563",
            Secondary = "#6b3a63",
            Tertiary = "#4d5d2e",
            Background = "#f4f2ec",
            Surface = "#ffffff",
            AppbarBackground = "#12262d",
            AppbarText = "#f4f2ec",
            TextPrimary = "#14252b",
            TextSecondary = "#45565c",
            ActionDefault = "#45565c",
            LinesDefault = "#d9d4c6",
            TableLines = "#e4dfd2",
            Divider = "#d9d4c6",
            Info = "#0b5563",
            Success = "#2d6a3e",
            Error = "#8c1d2f",
            Warning = "#7a4b00",
        },
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

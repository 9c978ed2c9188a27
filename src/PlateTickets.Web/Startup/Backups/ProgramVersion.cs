using System.Reflection;

namespace PlateTickets.Web.Startup.Backups;

internal static class ProgramVersion
{
    /// <summary>The version of this program, with its commit where the build knew it.</summary>
    public static string Text { get; } =
        typeof(ProgramVersion).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "unknown";
}

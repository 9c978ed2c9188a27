using System.Diagnostics;

namespace PlateTickets.Tests.Shared;

/// <summary>Runs a tool that is not ours. A missing tool fails the test and names its Debian package.</summary>
internal static class Tool
{
    public static string Run(string package, string program, params IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        using var process = Start(start, package);
        // Both pipes are emptied at once: a full one would block the tool.
        var errors = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0
            ? output
            : throw new InvalidOperationException($"{program} ended with {process.ExitCode}: {errors.Result}{output}");
    }

    private static System.Diagnostics.Process Start(ProcessStartInfo start, string package)
    {
        try
        {
            return System.Diagnostics.Process.Start(start)!;
        }
        catch (System.ComponentModel.Win32Exception e)
        {
            throw new InvalidOperationException($"This test needs {start.FileName}: install the Debian package {package}.", e);
        }
    }
}

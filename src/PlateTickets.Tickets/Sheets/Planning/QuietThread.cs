using System.Runtime.ExceptionServices;
using System.Runtime.InteropServices;

namespace PlateTickets.Tickets.Sheets.Planning;

/// <summary>A long computation on a thread of its own that gives way to whatever people wait for.</summary>
internal static class QuietThread
{
    // Of -20 to 19: a tenth of the weight of a thread that does not give way.
    private const int Niceness = 10;

    /// <summary>
    /// Blocks until the work is done. The work starts no tasks of the thread pool: a thread that the pool makes for one would give way for ever.
    /// </summary>
    public static T Run<T>(Func<T> work)
    {
        T? result = default;
        ExceptionDispatchInfo? fault = null;
        var thread = new Thread(() =>
        {
            GiveWay();
            try
            {
                result = work();
            }
            catch (Exception e)
            {
                fault = ExceptionDispatchInfo.Capture(e);
            }
        })
        { IsBackground = true, Name = "plan" };
        thread.Start();
        thread.Join();
        fault?.Throw();
        return result!;
    }

    private static void GiveWay()
    {
        Thread.CurrentThread.Priority = ThreadPriority.BelowNormal;
        if (OperatingSystem.IsLinux())
        {
            // The runtime's priorities do nothing there. 0 and 0: this thread, and the threads that it starts. Where it is refused the work is only less quiet.
            _ = SetPriority(0, 0, Niceness);
        }
    }

    [DllImport("libc", EntryPoint = "setpriority")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int SetPriority(int which, uint who, int niceness);
}

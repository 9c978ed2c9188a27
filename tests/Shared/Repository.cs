namespace PlateTickets.Tests.Shared;

/// <summary>Where the checkout lies, found from the test's own folder.</summary>
internal static class Repository
{
    public static string Root { get; } = Find();

    private static string Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "PlateTickets.sln")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException("PlateTickets.sln was not found above the test's folder.");
    }
}

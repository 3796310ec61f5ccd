namespace Pleatwright.Tests;

/// <summary>Where things lie in the checkout the tests run from.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    public static string Path(params string[] parts) => System.IO.Path.Combine([Root, .. parts]);

    public static IEnumerable<string> Examples => Directory.GetFiles(Path("examples"), "*.piece.json").Order();

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(System.IO.Path.Combine(folder!.FullName, "Pleatwright.slnx"))) folder = folder.Parent;
        return folder.FullName;
    }
}

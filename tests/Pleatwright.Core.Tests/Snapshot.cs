namespace Pleatwright.Tests;

/// <summary>
/// Charts, directions and pages kept as files and compared as a whole. To accept what is made now, run the tests with
/// PLEATWRIGHT_SNAPSHOTS=accept in the environment and look at what changed before it is committed.
/// </summary>
internal static class Snapshot
{
    /// <summary>Compares with the file of this name among the snapshots of a room.</summary>
    public static void Check(string room, string name, string made)
    {
        var path = Repository.Path("tests", "Pleatwright.Core.Tests", room, "Snapshots", name);
        if (Environment.GetEnvironmentVariable("PLEATWRIGHT_SNAPSHOTS") == "accept")
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllText(path, made);
            return;
        }
        Assert.True(File.Exists(path), $"There is no snapshot {name} yet; run with PLEATWRIGHT_SNAPSHOTS=accept.");
        Assert.Equal(File.ReadAllText(path), made);
    }
}

using Pleatwright.Chart;

namespace Pleatwright.Bench.Model;

/// <summary>The pieces that come with the bench.</summary>
public static class Examples
{
    private const string Ending = ".piece.json";

    /// <summary>The one that lies on the table before anything else does.</summary>
    public const string First = "harbour-morning";

    /// <summary>Their names, as in the examples folder.</summary>
    public static IEnumerable<string> Names { get; } =
        [.. typeof(Examples).Assembly.GetManifestResourceNames().Where(n => n.EndsWith(Ending, StringComparison.Ordinal)).Select(n => n[..^Ending.Length]).Order(StringComparer.Ordinal)];

    /// <summary>Reads one.</summary>
    public static Piece Read(string name)
    {
        using var stream = typeof(Examples).Assembly.GetManifestResourceStream(name + Ending)
            ?? throw new ArgumentException($"No example is called “{name}”.", nameof(name));
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return Smocking.Read(bytes);
    }
}

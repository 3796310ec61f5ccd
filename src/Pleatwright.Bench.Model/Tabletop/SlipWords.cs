using Pleatwright.Chart;
using Pleatwright.Chart.Accents;

namespace Pleatwright.Bench.Model.Tabletop;

/// <summary>What the lines of the drawer say, and what their buttons are called aloud.</summary>
public static class SlipWords
{
    /// <summary>"Change the trellis band on gathering row 2".</summary>
    public static string Change(Band band) => $"Change the {Of(band)}";

    /// <summary>"Take off the trellis band on gathering row 2".</summary>
    public static string TakeOff(Band band) => $"Take off the {Of(band)}";

    /// <summary>Where a band lies and in which thread.</summary>
    public static string Where(Piece piece, Band band) => $"{band.GatheringRow}, {piece.Thread(band.Thread)?.Name}";

    /// <summary>"Change the knot on valley 66, gathering row 2".</summary>
    public static string Change(Work work, AccentMark mark) => $"Change the {Of(work, mark)}";

    /// <summary>"Take off the knot on valley 66, gathering row 2".</summary>
    public static string TakeOff(Work work, AccentMark mark) => $"Take off the {Of(work, mark)}";

    /// <summary>"valley 66, gathering row 2, sail red"; "3 about valley 66, …" for copies.</summary>
    public static string Where(Work work, AccentMark mark) =>
        $"{(mark.Repeat.Count > 1 ? $"{Words.Of(mark.Repeat.Count)} about valley" : "valley")} {ValleyOf(work, mark)}, {mark.GatheringRow}, {work.Piece.Thread(mark.Thread)?.Name}";

    /// <summary>How often a figure lies on the cloth.</summary>
    public static string Times(Piece piece, Figure figure) => piece.Placements.Where(p => p.Figure == figure.Name).Sum(p => p.Repeat.Count) switch
    {
        0 => "not on the cloth",
        1 => "once",
        var times => $"{Words.Of(times)} times",
    };

    /// <summary>"Put boat on the cloth".</summary>
    public static string PutOn(Figure figure) => $"Put {figure.Name} on the cloth";

    /// <summary>"Place and repeat boat".</summary>
    public static string Place(Figure figure) => $"Place and repeat {figure.Name}";

    private static string Of(Band band) => $"{band.Stitch} band on {band.GatheringRow}";

    private static string Of(Work work, AccentMark mark) => $"{mark.Accent} on valley {ValleyOf(work, mark)}, {mark.GatheringRow}";

    private static int ValleyOf(Work work, AccentMark mark) => mark.Centre.On(work.Pleating).Number;
}

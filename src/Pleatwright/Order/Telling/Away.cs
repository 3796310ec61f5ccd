using Pleatwright.Chart;

namespace Pleatwright.Order.Telling;

/// <summary>The side of a centre on which something is seen by the one who holds the work upright.</summary>
internal enum Flank
{
    /// <summary>On the centre itself.</summary>
    Neither,

    /// <summary>To the left of it.</summary>
    Left,

    /// <summary>To the right of it.</summary>
    Right,
}

/// <summary>A place counted from a centre as the work is held: the pleats beside a centre valley are the first to its left and its right.</summary>
/// <param name="Count">How many from the centre, at least 1; 0 on the centre itself.</param>
/// <param name="Flank">On which side, as held.</param>
internal readonly record struct Away(int Count, Flank Flank);

/// <summary>A centre that places are counted from: a valley or a pleat.</summary>
/// <param name="Twice">Twice the number of the pleat, or the sum of the two pleats beside the valley.</param>
internal readonly record struct Middle(int Twice)
{
    /// <summary>The middle of what lies from one pleat to another.</summary>
    public static Middle Of(int from, int to) => new(from + to);

    /// <summary>The middle of the piece.</summary>
    public static Middle Of(Work work) => new(2 * work.Pleating.CentreValley + 1);

    /// <summary>Whether it is a valley.</summary>
    public bool IsValley => (Twice & 1) == 1;

    /// <summary>How far a pleat lies from it.</summary>
    /// <param name="pleat">The pleat.</param>
    /// <param name="mirrored">Whether the hand sees the chart's left at its right.</param>
    public Away To(Pleat pleat, bool mirrored)
    {
        var twice = 2 * pleat.Number - Twice;
        return new((Math.Abs(twice) + 1) / 2, FlankOf(twice, mirrored));
    }

    /// <summary>How far a valley lies from it, which is a valley too.</summary>
    public Away To(Valley valley, bool mirrored) => new(Math.Abs(valley.Number - Twice / 2), FlankOf(valley.Number - Twice / 2, mirrored));

    private static Flank FlankOf(int offset, bool mirrored) => offset == 0 ? Flank.Neither : offset < 0 != mirrored ? Flank.Left : Flank.Right;
}

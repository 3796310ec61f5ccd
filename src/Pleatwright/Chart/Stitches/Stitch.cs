namespace Pleatwright.Chart.Stitches;

/// <summary>How a single stitch is made.</summary>
public enum StitchKind
{
    /// <summary>Thread over two pleats from bite to bite, level or slanting: cables, outline, the steps of a wave.</summary>
    Over,

    /// <summary>Two pleats caught together by two stitches in one place.</summary>
    Catch,

    /// <summary>Thread down or up over one pleat on the surface, from one height to another.</summary>
    Bar,

    /// <summary>Thread down or up inside the fold of one pleat; nothing shows on the front.</summary>
    Slip,

    /// <summary>A loop held under the needle's point: feather.</summary>
    Loop,
}

/// <summary>Where the needle goes through a pleat.</summary>
/// <param name="Pleat">The pleat.</param>
/// <param name="Depth">Spaces below gathering row 1; negative above it.</param>
public readonly record struct Bite(Pleat Pleat, double Depth);

/// <summary>A single stitch, in the order it is worked: it leaves one bite and ends in another.</summary>
/// <param name="Kind">How it is made.</param>
/// <param name="From">The bite it leaves.</param>
/// <param name="To">The bite it ends in: the next pleat, or the same one for a bar or a slip.</param>
/// <param name="Level">Whether the thread is above or below the needle, seen on the chart.</param>
public readonly record struct Stitch(StitchKind Kind, Bite From, Bite To, Level Level)
{
    /// <summary>The valley it lies over; of a bar or a slip, the valley left of its pleat.</summary>
    public Valley Valley => From.Pleat == To.Pleat
        ? new Valley(From.Pleat.Number - 1)
        : new Valley(Math.Min(From.Pleat.Number, To.Pleat.Number));

    /// <summary>Spaces between its bites, whichever is lower.</summary>
    public double Drop => Math.Abs(To.Depth - From.Depth);

    /// <summary>Whether it lies along the row.</summary>
    public bool IsLevel => Drop < Hair;

    /// <summary>Whether it ends higher on the chart than it begins.</summary>
    public bool Rises => From.Depth - To.Depth >= Hair;

    /// <summary>The highest and the lowest bite of some stitches, in spaces below gathering row 1; of none, infinitely far within each other.</summary>
    public static (double Highest, double Lowest) Reach(ReadOnlySpan<Stitch> stitches)
    {
        double highest = double.PositiveInfinity, lowest = double.NegativeInfinity;
        foreach (ref readonly var s in stitches)
            (highest, lowest) = (Math.Min(highest, Math.Min(s.From.Depth, s.To.Depth)), Math.Max(lowest, Math.Max(s.From.Depth, s.To.Depth)));
        return (highest, lowest);
    }

    /// <summary>Heights nearer than this many spaces are one and the same: sums of fractions come out a hair apart.</summary>
    public const double Hair = 1e-6;
}

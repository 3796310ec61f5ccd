using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Chart;

/// <summary>The hand that holds the needle.</summary>
public enum Hand
{
    /// <summary>Works from left to right.</summary>
    Right,

    /// <summary>Works from right to left.</summary>
    Left,
}

/// <summary>Which way the rows are worked first, outward from the base row.</summary>
public enum FirstWay
{
    /// <summary>All the way up, then all the way down.</summary>
    Up,

    /// <summary>All the way down, then all the way up.</summary>
    Down,

    /// <summary>Up and down by turns, where that saves a start: neither way is finished before the other is begun.</summary>
    Either,
}

/// <summary>What the working order keeps to within a figure: the plainer the way, the more starts it may take.</summary>
public enum WayOfWorking
{
    /// <summary>A row is finished right across, in all its colours, before the next outward is begun.</summary>
    RowByRow,

    /// <summary>The rows between two gathering rows are finished right across before those of the next space are begun.</summary>
    SpaceBySpace,

    /// <summary>Any order that butts worked rows, whichever takes fewest starts.</summary>
    FewestStarts,
}

/// <summary>How the maker means to work: what the working order keeps to.</summary>
public sealed record Working
{
    /// <summary>One needleful. Default 18 in (common practice, no source).</summary>
    public Length WorkingLength { get; init; } = Length.FromInches(18);

    /// <summary>How the rows of a figure follow one another. Default row by row.</summary>
    public WayOfWorking Way { get; init; } = WayOfWorking.RowByRow;

    /// <summary>
    /// How much longer than <see cref="WorkingLength"/> a needleful may be cut where it then finishes a run, and saves a start of
    /// a few cables. Default 4 cm (common practice is "a little longer"; the figure is ours), 0 for never.
    /// </summary>
    public Length Longer { get; init; } = Length.FromCentimetres(4);

    /// <summary>The least that must be left of a needleful after a tie-off to go on with elsewhere. Default 12 cm (common practice, no source).</summary>
    public Length LeastRest { get; init; } = Length.FromCentimetres(12);

    /// <summary>Thread lost to one start and its tie-off together. Default 8 cm (common practice, no source).</summary>
    public Length Tails { get; init; } = Length.FromCentimetres(8);

    /// <summary>
    /// Thread this maker's stitches take, over what <see cref="Pleatwright.Thread.Usage"/> reckons; a swatch tells
    /// it. Default 1, from <see cref="LeastThreadFactor"/> to <see cref="MostThreadFactor"/>.
    /// </summary>
    public double ThreadFactor { get; init; } = 1;

    /// <summary>The least a thread factor may be here.</summary>
    public const double LeastThreadFactor = 0.25;

    /// <summary>The most a thread factor may be here.</summary>
    public const double MostThreadFactor = 4;

    /// <summary>The most that <see cref="CarryPleats"/> may be here.</summary>
    public const int MostCarryPleats = 12;

    /// <summary>The most that <see cref="ParkedThreads"/> may be here.</summary>
    public const int MostParkedThreads = 12;

    /// <summary>The most pleats a thread may be carried sideways on the back, 0 to <see cref="MostCarryPleats"/>. Default 4 (common practice, no source).</summary>
    public int CarryPleats { get; init; } = 4;

    /// <summary>The stitching hand. Default right.</summary>
    public Hand Hand { get; init; } = Hand.Right;

    /// <summary>Which way first from the base row. Default up.</summary>
    public FirstWay First { get; init; } = FirstWay.Up;

    /// <summary>Whether the work may be turned top to bottom to come back along a row. Default yes.</summary>
    public bool MayTurn { get; init; } = true;

    /// <summary>The base row, when the maker pins it; else the widest row is found.</summary>
    public CableRow? BaseRow { get; init; }

    /// <summary>
    /// The most threads left hanging at the back while another is worked, 0 to <see cref="MostParkedThreads"/>. Default 3 (common practice, no source).
    /// </summary>
    public int ParkedThreads { get; init; } = 3;

    /// <summary>
    /// Whether a thread may be changed within a run where that saves a start. A run longer than a needleful is always
    /// worked with several. Default yes.
    /// </summary>
    public bool SplitRuns { get; init; } = true;

    /// <summary>Runs fixed to places in the order; the rest is planned round them. Default none.</summary>
    public ImmutableArray<FixedPlace> Places { get; init => field = value.IsDefaultOrEmpty ? [] : value; } = []; // one empty is like another, also when compared

    /// <summary>
    /// Figures in the order in which the maker will have them, each named by a place in it; those not named follow. Default none:
    /// borders, then the figures at the sides from the outside in, the middle one last.
    /// </summary>
    public ImmutableArray<FigurePlace> Figures { get; init => field = value.IsDefaultOrEmpty ? [] : value; } = [];
}

/// <summary>A run that the maker fixes to a place in the working order.</summary>
/// <param name="Row">Its cable row.</param>
/// <param name="Valley">Any valley of it.</param>
/// <param name="Place">Which run of the order it is to be, from 1.</param>
public readonly record struct FixedPlace(CableRow Row, Valley Valley, int Place);

/// <summary>A figure, named by a place in it.</summary>
/// <param name="Row">A cable row of it.</param>
/// <param name="Valley">A valley of it in that row.</param>
public readonly record struct FigurePlace(CableRow Row, Valley Valley);

using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Order.Telling;

/// <summary>
/// Something the directions tell, as facts: the one thing from which both the table and the long words are made. Sides, levels and ways
/// are as the work is held.
/// </summary>
internal abstract record Told;

/// <summary>How the work is held and counted.</summary>
/// <param name="Pleats">Pleats in all.</param>
/// <param name="Centre">The centre valley.</param>
/// <param name="PerSpace">Cable rows in a space.</param>
/// <param name="Turns">Whether the work is ever turned.</param>
/// <param name="Halves">Whether there are half stitches.</param>
internal sealed record Opening(int Pleats, int Centre, int PerSpace, bool Turns, bool Halves) : Told;

/// <summary>Backsmocking is to come.</summary>
/// <param name="Gaps">Whether it is only where nothing is stitched on the front.</param>
internal sealed record BackOpening(bool Gaps) : Told;

/// <summary>A row of backsmocking.</summary>
/// <param name="Row">The row.</param>
/// <param name="From">Where it begins, seen from the back.</param>
/// <param name="To">Where it ends.</param>
/// <param name="CarriedRows">Cable rows its thread is carried along the pleat to reach it; 0 where it begins with its own.</param>
internal sealed record BackLine(BackRow Row, Away From, Away To, int CarriedRows) : Told;

/// <summary>Rows of backsmocking right across, all alike.</summary>
/// <param name="Rows">The gathering rows, from the top.</param>
/// <param name="From">Where each begins, seen from the back and as then held.</param>
/// <param name="To">Where each ends.</param>
/// <param name="Cables">Cables in each.</param>
/// <param name="Turned">Whether some are worked back with the work turned.</param>
/// <param name="Needlefuls">Needlefuls in all.</param>
internal sealed record BackRows(ImmutableArray<int> Rows, Away From, Away To, int Cables, bool Turned, int Needlefuls) : Told
{
    /// <summary>Cable rows from one of them to the next gathering row.</summary>
    public required int PerSpace { get; init; }
}

/// <summary>The right side is up again.</summary>
internal sealed record RightSideUp : Told;

/// <summary>A band is to come.</summary>
/// <param name="Band">The band.</param>
/// <param name="Rightward">The way it is worked as held, where that is not the way of cables; else null.</param>
internal sealed record BandOpening(LaidBand Band, bool? Rightward) : Told
{
    /// <summary>Whether stitches slope on the surface, so that the thread's side of the needle follows from their way.</summary>
    public bool Slopes { get; init; }

    /// <summary>The side of the needle on which the thread lies all along each of its lines, as held; nothing where it changes sides.</summary>
    public required ImmutableArray<Level> Sides { get; init; }
}

/// <summary>A step of a band.</summary>
/// <param name="Number">Its number among the steps of bands, from 1.</param>
/// <param name="Step">The step.</param>
/// <param name="From">The pleat it begins in.</param>
/// <param name="To">The pleat it ends in.</param>
/// <param name="Highest">The height toward the top edge between which and the other it goes.</param>
/// <param name="Lowest">The height toward the bottom edge.</param>
/// <param name="Slope">Stitches from one height to the other; 0 when they are one.</param>
/// <param name="Start">How many of those lie, as held, above the place where it begins.</param>
/// <param name="Pattern">Its stitches.</param>
internal sealed record BandLine(int Number, BandStep Step, Away From, Away To, Height Highest, Height Lowest, int Slope, int Start, Pattern Pattern) : Told
{
    /// <summary>Whether the work was turned before it.</summary>
    public required bool WasTurned { get; init; }

    /// <summary>Which row of the band it belongs to, of how many.</summary>
    public (int Row, int Of) Time => (Step.Pass.Row + 1, Step.Band.Band.Rows);

    /// <summary>Which journey of its stitch it belongs to, of how many.</summary>
    public (int Journey, int Of) Journey => (Step.Pass.Journey + 1, Step.Band.Passes.Max(p => p.Journey) + 1);

    /// <summary>Cable rows that its thread is carried along the pleat; not always whole.</summary>
    public double CarriedRows { get; init; }
}

/// <summary>Rows that a step of a band lies along, to be kept level.</summary>
internal sealed record BandCheck(ImmutableArray<int> Rows) : Told;

/// <summary>The work is turned back.</summary>
internal sealed record TurnedBack : Told;

/// <summary>How every run is worked.</summary>
internal sealed record RunsOpening : Told;

/// <summary>A place in the order that cannot be kept.</summary>
internal sealed record UnkeptPlace(FixedPlace Pin, Height At) : Told;

/// <summary>A stretch of a part worked one way out from its base row.</summary>
/// <param name="From">Its leftmost pleat with the top edge up.</param>
/// <param name="To">Its rightmost.</param>
/// <param name="Way">-1 toward the top edge, 1 toward the bottom edge, 0 the base row.</param>
/// <param name="Again">Whether the way has turned since the base row: it hangs from what stands, or stands on what hangs.</param>
/// <param name="Base">The base row.</param>
/// <param name="Alone">Whether it is all there is.</param>
internal sealed record PartOpening(Away From, Away To, int Way, bool Again, Height Base, bool Alone) : Told
{
    /// <summary>Whether it is a figure that stands on a border or hangs from one, and has no base row of its own.</summary>
    public required bool OnBorder { get; init; }

    /// <summary>Whether runs are fixed to places in the order, so that they need not go outward.</summary>
    public required bool Pinned { get; init; }

    /// <summary>Which part, in the hand's order.</summary>
    public required int Part { get; init; }
}

/// <summary>A figure that is worked several times alike, its places counted from its own centre.</summary>
/// <param name="First">Number of its first step.</param>
/// <param name="Last">Number of its last step.</param>
/// <param name="Times">How often it is worked in all.</param>
/// <param name="OnPleat">Whether its centre is a pleat; else it is a valley.</param>
internal sealed record AlikeOpening(int First, int Last, int Times, bool OnPleat) : Told;

/// <summary>A step of a figure worked several times that begins with a rest, or with a longer length.</summary>
/// <param name="Step">Its number.</param>
/// <param name="Rest">The step that left the rest; 0 where the length is new.</param>
/// <param name="Longer">How much longer than usual a new length is cut.</param>
internal readonly record struct ToldStart(int Step, int Rest, Length Longer);

/// <summary>One of the figures worked alike.</summary>
/// <param name="First">Number of its first step.</param>
/// <param name="Last">Number of its last.</param>
/// <param name="Between">The pleats on either side of its centre valley, or null where its centre is a pleat.</param>
/// <param name="Pleat">Its centre pleat, or null where its centre is a valley.</param>
/// <param name="Swapped">Whether every up cable of the lines is a down cable of it.</param>
/// <param name="Cables">Cables in it.</param>
/// <param name="Needlefuls">Lengths newly cut for it.</param>
internal sealed record AlikeLine(int First, int Last, (Away Left, Away Right)? Between, Away? Pleat, bool Swapped, int Cables, int Needlefuls) : Told
{
    /// <summary>Its first step.</summary>
    public required Step Step { get; init; }

    /// <summary>Spaces it lies nearer the bottom edge than the lines tell; negative when nearer the top edge.</summary>
    public required int Lower { get; init; }

    /// <summary>Cable rows in a space.</summary>
    public required int PerSpace { get; init; }

    /// <summary>Whether all of the figures lie on the same rows.</summary>
    public required bool Level { get; init; }

    /// <summary>Its steps that begin with something else than a new length cut as usual.</summary>
    public required ImmutableArray<ToldStart> Starts { get; init; }

    /// <summary>Whether there are none in any of the figures.</summary>
    public required bool AllNew { get; init; }
}

/// <summary>How a thread comes to a step.</summary>
internal enum Coming
{
    /// <summary>A length newly cut.</summary>
    New,

    /// <summary>What was left after an earlier tie-off.</summary>
    Rest,

    /// <summary>Either, in a figure that is worked several times.</summary>
    NewOrRest,

    /// <summary>The thread in hand.</summary>
    Same,

    /// <summary>One that was left hanging.</summary>
    TakenUp,
}

/// <summary>What becomes of a thread after a step.</summary>
internal enum Going
{
    /// <summary>It is kept for the next step.</summary>
    Kept,

    /// <summary>It is tied off.</summary>
    TiedOff,

    /// <summary>It is used up within the run, and tied off.</summary>
    UsedUp,

    /// <summary>It is left hanging.</summary>
    Hanging,
}

/// <summary>One line of the table: a run, or the part of it that one thread reaches.</summary>
/// <param name="Step">The step.</param>
/// <param name="At">Where its row lies.</param>
/// <param name="From">Its first pleat.</param>
/// <param name="To">Its last pleat.</param>
internal sealed record RunLine(Step Step, Height At, Away From, Away To) : Told
{
    /// <summary>Its thread.</summary>
    public required Floss Thread { get; init; }

    /// <summary>How the thread comes.</summary>
    public required Coming Comes { get; init; }

    /// <summary>The step after which it was laid by or left hanging; else 0.</summary>
    public int Before { get; init; }

    /// <summary>Where a thread left hanging hangs.</summary>
    public Away Hangs { get; init; }

    /// <summary>How much longer than usual a new length is cut.</summary>
    public Length Longer { get; init; }

    /// <summary>What becomes of the thread.</summary>
    public required Going Goes { get; init; }

    /// <summary>Whether the work was turned before it; null where that differs from copy to copy.</summary>
    public bool? WasTurned { get; init; }

    /// <summary>The way it goes, as held.</summary>
    public required bool Rightward { get; init; }

    /// <summary>Pleat numbers of its ends, where it is told for one place alone.</summary>
    public (int From, int To)? Pleats { get; init; }

    /// <summary>Cables so far, its own among them.</summary>
    public int Cables { get; init; }

    /// <summary>Lengths cut so far.</summary>
    public int Needlefuls { get; init; }

    /// <summary>Whether its thread is carried further than a hand would by itself: past the next row, or more than two pleats along. Our own choice.</summary>
    public bool IsFar => Comes is Coming.Same or Coming.TakenUp && Crosses(Step);

    /// <summary>Whether a carry to a step goes past the next row or more than two pleats along.</summary>
    public static bool Crosses(Step step) => step.Starts == StartKind.Carry && (Math.Abs(step.CarriedRows) > 1 || Math.Abs(step.CarriedPleats) > 2);

    /// <summary>Whether it lies along a gathering row.</summary>
    public bool IsOnGatheringRow => At is { Eighths: 0, Rows: 0 };
}

/// <summary>A row of a part is complete that comes in several runs, worked one after the other.</summary>
/// <param name="Cables">Cables in it.</param>
/// <param name="Runs">Runs in it.</param>
/// <param name="Step">The step it is told after.</param>
internal sealed record RowCount(int Cables, int Runs, Step Step) : Told;

/// <summary>A row that meets a gathering row.</summary>
internal sealed record RowCheck(int Row, bool IsBase, Step Step) : Told;

/// <summary>A run that has to be squeezed between two finished rows.</summary>
internal sealed record Squeezed(Step Step) : Told;

/// <summary>All runs are done.</summary>
internal sealed record Closing(int Cables, int Halves, int Needlefuls, int Turns) : Told;

/// <summary>Accents are to come.</summary>
internal sealed record AccentOpening(ImmutableArray<Accent> Kinds) : Told;

/// <summary>Accents of one mark.</summary>
/// <param name="Number">Its number among them, from 1.</param>
/// <param name="Laid">The accents, from left to right.</param>
/// <param name="Thread">Their thread.</param>
/// <param name="At">Where they lie.</param>
/// <param name="Valleys">Their valleys, with the top edge up.</param>
/// <param name="Needlefuls">Lengths newly cut for them.</param>
internal sealed record AccentLine(int Number, ImmutableArray<LaidAccent> Laid, Floss Thread, Height At, ImmutableArray<Away> Valleys, int Needlefuls) : Told;

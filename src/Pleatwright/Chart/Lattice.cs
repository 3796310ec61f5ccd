namespace Pleatwright.Chart;

/// <summary>A pleat, numbered from 1 at the left of the right side.</summary>
/// <param name="Number">Its number; on the cloth from 1 to the pleat count.</param>
public readonly record struct Pleat(int Number) : IComparable<Pleat>
{
    /// <inheritdoc/>
    public int CompareTo(Pleat other) => Number.CompareTo(other.Number);
}

/// <summary>The valley between two pleats; valley v lies between pleats v and v + 1.</summary>
/// <param name="Number">Its number; on the cloth from 1 to one less than the pleat count.</param>
public readonly record struct Valley(int Number) : IComparable<Valley>
{
    /// <summary>The pleat on its left.</summary>
    public Pleat LeftPleat => new(Number);

    /// <summary>The pleat on its right.</summary>
    public Pleat RightPleat => new(Number + 1);

    /// <inheritdoc/>
    public int CompareTo(Valley other) => Number.CompareTo(other.Number);
}

/// <summary>A row of cables, counted downward from 0 on gathering row 1.</summary>
/// <param name="Index">Its index; on the cloth from 0 to one less than the cable-row count.</param>
public readonly record struct CableRow(int Index) : IComparable<CableRow>
{
    /// <inheritdoc/>
    public int CompareTo(CableRow other) => Index.CompareTo(other.Index);
}

/// <summary>A gathering row, counted from 1 at the top; holding rows are not counted.</summary>
/// <param name="Number">Its number, from 1.</param>
public readonly record struct GatheringRow(int Number) : IComparable<GatheringRow>
{
    /// <summary>The cable row that lies on it, given the cable rows in a space.</summary>
    public CableRow CableRow(int cableRowsPerSpace) => new((Number - 1) * cableRowsPerSpace);

    /// <summary>The lowest gathering row on or above a cable row, given the cable rows in a space; row 1 where there is none.</summary>
    public static GatheringRow AtOrAbove(CableRow row, int cableRowsPerSpace) => new(Math.Max(0, row.Index) / cableRowsPerSpace + 1);

    /// <summary>The next gathering row down; it may be past the last.</summary>
    public GatheringRow Below => new(Number + 1);

    /// <summary>"gathering row 3"; not the row below it and the one below that.</summary>
    public override string ToString() => FormattableString.Invariant($"gathering row {Number}");

    /// <inheritdoc/>
    public int CompareTo(GatheringRow other) => Number.CompareTo(other.Number);
}

/// <summary>Where the thread is held while a cable is worked, seen on the chart.</summary>
public enum Level
{
    /// <summary>Thread above the needle; the cable lies on its row's upper line.</summary>
    Up,

    /// <summary>Thread below the needle; the cable lies on its row's lower line.</summary>
    Down,
}

/// <summary>Which of the two mirror patterns an area follows.</summary>
public enum Phase
{
    /// <summary>Up where valley + row is even.</summary>
    Even,

    /// <summary>Up where valley + row is odd.</summary>
    Odd,
}

/// <summary>An end of a run.</summary>
public enum RunEnd
{
    /// <summary>The left end, seen on the right side of the cloth.</summary>
    Left,

    /// <summary>The right end.</summary>
    Right,
}

/// <summary>One of the two lines of a cable row; counted downward, two to a row.</summary>
/// <param name="Index">Twice the cable row for its upper line, one more for its lower.</param>
public readonly record struct Line(int Index);

/// <summary>
/// The lattice: where cables may lie. A cable in valley v lies over pleats v and v + 1; along a row the levels
/// alternate, and every row mirrors the one above, so that bricks two pleats wide tile the cloth without gap or overlap.
/// </summary>
public static class Lattice
{
    /// <summary>The mirror rule: up when valley + row + phase is even.</summary>
    public static Level LevelAt(Valley valley, CableRow row, Phase phase) =>
        ((valley.Number + row.Index + (int)phase) & 1) == 0 ? Level.Up : Level.Down;

    /// <summary>The other level.</summary>
    public static Level Opposite(this Level level) => level == Level.Up ? Level.Down : Level.Up;

    /// <summary>The other phase.</summary>
    public static Phase Opposite(this Phase phase) => phase == Phase.Even ? Phase.Odd : Phase.Even;

    /// <summary>The line on which a cable of this level lies.</summary>
    public static Line LineOf(CableRow row, Level level) => new(row.Index * 2 + (level == Level.Up ? 0 : 1));

    /// <summary>The pleat a half stitch covers at an end of a run: the run's outermost pleat on that side.</summary>
    public static Pleat HalfStitchPleat(Valley endValley, RunEnd end) =>
        end == RunEnd.Left ? endValley.LeftPleat : endValley.RightPleat;

    /// <summary>
    /// The line a half stitch lies on: opposite the end cable, where the missing half-brick leaves a pleat bare.
    /// </summary>
    public static Line HalfStitchLine(Valley endValley, CableRow row, Phase phase) =>
        LineOf(row, LevelAt(endValley, row, phase).Opposite());
}

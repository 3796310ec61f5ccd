using System.Collections.Immutable;

namespace Pleatwright.Order.Telling;

/// <summary>The directions in the fewest words: what is said of all, then blocks of one line a run.</summary>
/// <param name="Lead">How the work is held and counted, a paragraph each.</param>
/// <param name="Blocks">The blocks, in the order worked.</param>
internal sealed record DirectionTable(ImmutableArray<string> Lead, ImmutableArray<TableBlock> Blocks)
{
    /// <summary>A table with nothing in it.</summary>
    public static DirectionTable Empty { get; } = new([], []);

    /// <summary>Whether there is nothing to work.</summary>
    public bool IsEmpty => Blocks.IsEmpty;

    /// <summary>Steps and other things to tick off.</summary>
    public IEnumerable<TableLine> Lines => Blocks.SelectMany(b => b.Lines);
}

/// <summary>Lines under one heading, all with the same columns.</summary>
/// <param name="Heading">The heading; empty where the block goes on from the one before.</param>
/// <param name="Notes">What is said before the lines, a paragraph each.</param>
/// <param name="Columns">What stands in each column; none where there are no lines.</param>
/// <param name="Lines">The lines.</param>
internal sealed record TableBlock(string Heading, ImmutableArray<string> Notes, ImmutableArray<string> Columns, ImmutableArray<TableLine> Lines)
{
    /// <summary>Whether what stands in the last column is long, and is set beneath the others on paper.</summary>
    public bool LastBeneath { get; init; }

    /// <summary>How many columns stand on the first of two lines where so many fit at the most: from and to are not parted.</summary>
    public int Apart(int most) => Columns.IndexOf("from") is var from and > 0 && from < most ? from : most;

    /// <summary>What is said after the lines.</summary>
    public ImmutableArray<string> After { get; init; } = [];
}

/// <summary>One line: a run, a step of a band, a row of the back, an accent, or a copy of a figure.</summary>
/// <param name="Cells">What stands in each column; the first names the line.</param>
internal sealed record TableLine(ImmutableArray<string> Cells)
{
    /// <summary>The step it begins with, or null.</summary>
    public Step? Step { get; init; }

    /// <summary>Whether it lies on a gathering row, to be kept level.</summary>
    public bool IsLevel { get; init; }
}

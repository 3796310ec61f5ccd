using System.Collections.Immutable;
using Pleatwright.Order.Telling;
using Pleatwright.Plate.Parts;

namespace Pleatwright.Plate.Sections;

/// <summary>A section of a plate, declared once: every writer reads it and writes each of its items in its own way.</summary>
/// <param name="Id">What it is known by, in links and to what reads a plate back.</param>
/// <param name="Heading">Its heading.</param>
/// <param name="Lead">A few words beside the heading, or null.</param>
/// <param name="Columns">Columns it is set in on paper, of ordinary print.</param>
/// <param name="Items">What is in it, in order.</param>
internal sealed record Section(string Id, string Heading, string? Lead, int Columns, ImmutableArray<Item> Items)
{
    /// <summary>Columns it is set in on paper, of large print.</summary>
    public int LargeColumns { get; init; } = 1;

    /// <summary>Columns it may be set in on paper where it is set close, of ordinary print; 0 for no more than usual.</summary>
    public int MostColumns { get; init; }

    /// <summary>Whether it begins on a page of its own, on paper.</summary>
    public bool Apart { get; init; }

    /// <summary>Whether it is left out on paper where that saves a page: what it shows is told elsewhere, too.</summary>
    public bool Spare { get; init; }

    /// <summary>Whether it may stand on the cover, on paper, where that saves a page and leaves the picture its size.</summary>
    public bool Front { get; init; }
}

/// <summary>Something in a section.</summary>
internal abstract record Item;

/// <summary>A heading within a section.</summary>
/// <param name="Words">Its words.</param>
/// <param name="Lines">Lines of what follows that stay with it on paper.</param>
internal sealed record Headed(string Words, int Lines = 3) : Item;

/// <summary>How a paragraph is said.</summary>
internal enum Tone
{
    /// <summary>Plainly.</summary>
    Plain,

    /// <summary>Beside the matter: how to read it, what is done once for all.</summary>
    Remark,

    /// <summary>A check of the level that belongs to what stands before it.</summary>
    Check,
}

/// <summary>A paragraph.</summary>
internal sealed record Words(string Text, Tone Tone = Tone.Plain) : Item;

/// <summary>Paragraphs, each after a label of a word or two; labels line up.</summary>
internal sealed record Labelled(ImmutableArray<MaterialLine> Lines) : Item;

/// <summary>A thread of the key: its brick, its name, what is stitched with it and what of it to buy.</summary>
/// <param name="Thread">The thread.</param>
/// <param name="Words">What is stitched with it and what it takes, with what the maker says of it.</param>
internal sealed record KeyThread(ThreadEntry Thread, string Words) : Item;

/// <summary>A sign of the chart and what it stands for.</summary>
internal sealed record KeySign(SignEntry Sign) : Item;

/// <summary>Lines to tick off, under the names of their columns.</summary>
/// <param name="Block">The lines.</param>
/// <param name="Alike">All blocks of the directions: those with the same columns line up.</param>
internal sealed record Lines(TableBlock Block, ImmutableArray<TableBlock> Alike) : Item;

/// <summary>A step to tick off, told in sentences.</summary>
/// <param name="Number">Its number; empty where it has none.</param>
/// <param name="Text">What is done.</param>
/// <param name="Last">The longest number among the steps.</param>
internal sealed record Step(string Number, string Text, string Last) : Item;

/// <summary>A stitch used, drawn with the needle's way.</summary>
/// <param name="Stitch">The stitch.</param>
/// <param name="Number">Its place among them, from 0.</param>
internal sealed record StitchShown(DrawnStitch Stitch, int Number) : Item;

/// <summary>The working chart.</summary>
internal sealed record TheChart : Item;

/// <summary>The chart at the size of the finished work.</summary>
internal sealed record TheTrueChart : Item;

/// <summary>The wrong side.</summary>
internal sealed record TheBack : Item;

/// <summary>Words in a frame, so that they are seen.</summary>
internal sealed record Framed(string Heading, string Text) : Item;

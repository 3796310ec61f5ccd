using System.Collections.Immutable;
using Pleatwright.Plate.Parts;
using Pleatwright.Thread;

namespace Pleatwright.Plate;

/// <summary>A pen.</summary>
/// <param name="Colour">Its colour.</param>
/// <param name="Width">Its width in millimetres, more than 0.</param>
public sealed record Pen(Colour Colour, double Width)
{
    /// <summary>Whether lines end and turn in a half circle; else they end square at the spot.</summary>
    public bool Round { get; init; }

    /// <summary>Length of a dash and of the gap after it, in millimetres; no gap means an unbroken line.</summary>
    public (double Dash, double Gap) Dashes { get; init; }
}

/// <summary>Which spot of a line of lettering lies at the place given; always on the baseline.</summary>
public enum Anchor
{
    /// <summary>Its left end.</summary>
    Start,

    /// <summary>Its middle.</summary>
    Middle,

    /// <summary>Its right end.</summary>
    End,
}

/// <summary>How lettering looks.</summary>
/// <param name="Face">Its typeface.</param>
/// <param name="Points">Its size in typographic points, 1/72 in.</param>
/// <param name="Colour">Its colour.</param>
public sealed record TypeStyle(Face Face, double Points, Colour Colour);

/// <summary>Something drawn on a sheet.</summary>
public abstract record Mark
{
    /// <summary>The sign of the chart that it is, which the key explains; null for what needs no key.</summary>
    internal Sign? Means { get; init; }
}

/// <summary>An outline, filled or drawn with a pen or both.</summary>
/// <param name="Outline">The outline.</param>
/// <param name="Fill">The colour inside, or none; figures that overlap are filled by the non-zero winding rule.</param>
/// <param name="Pen">The pen, or none.</param>
public sealed record Shape(Outline Outline, Colour? Fill, Pen? Pen = null) : Mark;

/// <summary>One line of lettering.</summary>
/// <param name="At">Where its anchor lies.</param>
/// <param name="Text">Its characters; no line breaks.</param>
/// <param name="Style">How it looks.</param>
/// <param name="Anchor">Which of its spots lies there.</param>
public sealed record Lettering(Spot At, string Text, TypeStyle Style, Anchor Anchor = Anchor.Start) : Mark
{
    /// <summary>Quarter turns anticlockwise about the anchor: 1 reads upward.</summary>
    public bool Upward { get; init; }

    /// <summary>The section of the plate whose running words it is of; empty for headings, footers and words of drawings.</summary>
    internal string Part { get; init; } = "";
}

/// <summary>Marks drawn together, moved and perhaps clipped.</summary>
/// <param name="Marks">The marks, first ones beneath.</param>
/// <param name="Move">By how much they are moved.</param>
/// <param name="Clip">Beyond this box nothing shows; it is not moved. None means no clipping.</param>
public sealed record Inset(ImmutableArray<Mark> Marks, Spot Move, Box? Clip = null) : Mark;

/// <summary>A picture in pixels, laid into a box.</summary>
public sealed record PixelPicture : Mark
{
    internal PixelPicture(Box box, PaintedPixels pixels, ImmutableArray<Mark> meanwhile = default) => (Box, Pixels, Meanwhile) = (box, pixels, meanwhile.IsDefault ? [] : meanwhile);

    /// <summary>Where it lies; it is stretched to fill it.</summary>
    public Box Box { get; }

    /// <summary>
    /// The picture as a JPEG file (ISO/IEC 10918-1). The first time it is asked for, it is painted; it is empty where that would keep a page waiting, and the picture was
    /// not painted elsewhere yet.
    /// </summary>
    public ImmutableArray<byte> Jpeg => Pixels.Jpeg;

    /// <summary>Where the pixels come from.</summary>
    internal PaintedPixels Pixels { get; }

    /// <summary>What is drawn in its place while there is no <see cref="Jpeg"/>.</summary>
    internal ImmutableArray<Mark> Meanwhile { get; }
}

/// <summary>Pixels that take longer to paint than a page to lay out; not every page is written.</summary>
internal abstract class PaintedPixels
{
    /// <summary>The picture as a JPEG file; see <see cref="PixelPicture.Jpeg"/>.</summary>
    public abstract ImmutableArray<byte> Jpeg { get; }
}

/// <summary>An entry in the list of contents that a reader program shows.</summary>
/// <param name="Title">Its words.</param>
/// <param name="Depth">0 for a chapter, 1 for a part of it.</param>
/// <param name="Y">How far down the sheet it points, in millimetres.</param>
public sealed record Bookmark(string Title, int Depth, double Y);

/// <summary>A page: its size and what is on it, in millimetres from its top left corner. Later marks lie over earlier ones.</summary>
/// <param name="Name">What the page is, in a few words.</param>
/// <param name="Width">Its width in millimetres.</param>
/// <param name="Height">Its height in millimetres.</param>
/// <param name="Marks">What is drawn on it.</param>
public sealed record Sheet(string Name, double Width, double Height, ImmutableArray<Mark> Marks)
{
    /// <summary>Entries in the list of contents, in order.</summary>
    public ImmutableArray<Bookmark> Bookmarks { get; init; } = [];

    /// <summary>What each of the marks is a part of; none where nobody said.</summary>
    internal ImmutableArray<Tag> Tags { get; init; } = [];
}

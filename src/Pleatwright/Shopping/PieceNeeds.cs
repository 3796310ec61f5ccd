using System.Collections.Immutable;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Thread;

namespace Pleatwright.Shopping;

/// <summary>What one piece needs of one thread.</summary>
/// <param name="Piece">The piece, in words.</param>
/// <param name="Use">The thread and what is used of it; at least one needleful.</param>
/// <param name="WorkingLength">Length of a needleful.</param>
/// <param name="IsBack">Whether it is for backsmocking, in thread near the cloth's colour; its letter then means nothing.</param>
public sealed record ThreadNeed(string Piece, ThreadUse Use, Length WorkingLength, bool IsBack = false)
{
    /// <summary>The thread.</summary>
    public Floss Thread => Use.Thread;

    /// <summary>Its name; backsmocking has none of its own.</summary>
    public string Name => IsBack ? "for backsmocking" : Thread.Name.Length > 0 ? Thread.Name : $"thread {Thread.Key}";

    /// <summary>The strands to cut: those of needlefuls cut longer to save a start, and the rest.</summary>
    public ImmutableArray<StrandsAsked> Strands =>
    [
        // no longer than there is thread on a skein
        new(WorkingLength + Use.LongerBy < Thread.SkeinLength ? WorkingLength + Use.LongerBy : Thread.SkeinLength, (long)Use.LongerNeedlefuls * Thread.Strands),
        new(WorkingLength, (long)(Use.Needlefuls - Use.LongerNeedlefuls) * Thread.Strands),
    ];
}

/// <summary>What one piece needs of cloth: the gathered part, what the maker gives above and below it, and its wings.</summary>
/// <param name="Piece">The piece, in words.</param>
/// <param name="Cloth">The cloth as it is planned.</param>
public sealed record ClothNeed(string Piece, ClothPlan Cloth)
{
    /// <summary>Length along the cloth: the depth it is cut to.</summary>
    public Length Length => Cloth.CutDepth;

    /// <summary>The strips to cut, from cloth so wide.</summary>
    public IEnumerable<Strip> Strips(Length width) => ClothToBuy.Strips(Piece, Cloth with { FabricWidth = width });
}

/// <summary>What one piece needs.</summary>
/// <param name="Piece">The piece, in words; unlike that of every other on the list.</param>
/// <param name="Threads">Its threads, those in use alone, and the one for backsmocking.</param>
/// <param name="Cloth">Its cloth.</param>
/// <param name="Stitches">Stitches to make: cables, half stitches, stitches of bands, accents, and cables on the back.</param>
public sealed record PieceNeeds(string Piece, ImmutableArray<ThreadNeed> Threads, ClothNeed Cloth, int Stitches)
{
    /// <summary>The same under another name.</summary>
    public PieceNeeds Called(string name) =>
        new(name, [.. Threads.Select(t => t with { Piece = name })], Cloth with { Piece = name }, Stitches);

    /// <summary>Counts what a piece needs when it is worked in this order.</summary>
    /// <param name="order">Its working order.</param>
    /// <param name="name">What to call it; its title when null.</param>
    public static PieceNeeds Of(WorkingOrder order, string? name = null)
    {
        var piece = order.Work.Piece;
        name ??= piece.Title;
        var needs = ImmutableArray.CreateBuilder<ThreadNeed>();
        var stitches = order.Backsmock.Cables;
        foreach (var use in order.ThreadUses())
        {
            stitches += use.Cables + use.HalfStitches + use.BandStitches + use.Accents;
            if (use.Needlefuls > 0) needs.Add(new ThreadNeed(name, use, piece.Working.WorkingLength));
        }
        if (order.Backsmock.Needlefuls > 0) needs.Add(new ThreadNeed(name, order.Backsmock.Use, piece.Working.WorkingLength, IsBack: true));
        return new PieceNeeds(name, needs.ToImmutable(), new ClothNeed(name, piece.Cloth), stitches);
    }
}

using System.Collections.Immutable;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Shopping;

/// <summary>A thread of the stash that might be taken instead.</summary>
/// <param name="Index">Which of the stash's threads, from 0.</param>
/// <param name="Thread">The thread.</param>
/// <param name="Difference">How unlike it is, by CIEDE2000; at most <see cref="Likenesses.MostInstead"/>.</param>
/// <param name="IsEnough">Whether what is left of it does for all that is needed.</param>
/// <param name="IsMadeLike">Whether its strand is as fine and as many lie on the skein; if not, it covers the cloth otherwise.</param>
/// <param name="IsNeeded">Whether something else on the list needs it.</param>
public sealed record Substitute(int Index, StashThread Thread, double Difference, bool IsEnough, bool IsMadeLike, bool IsNeeded)
{
    /// <summary>How alike they look, in a word.</summary>
    public Likeness Likeness => Likenesses.Of(Difference);
}

/// <summary>A thread of the stash from which is cut.</summary>
/// <param name="Index">Which of the stash's threads, from 0.</param>
/// <param name="Thread">The thread.</param>
/// <param name="Difference">How unlike it is, by CIEDE2000; at most <see cref="Likenesses.MostSame"/>.</param>
/// <param name="Used">Length used of it.</param>
public sealed record Taken(int Index, StashThread Thread, double Difference, Length Used)
{
    /// <summary>Skeins used of it, a part of one as a fraction.</summary>
    public double Skeins => Used / Thread.SkeinLength;

    /// <summary>Whether there is some left, but every end is shorter than a needleful.</summary>
    public bool IsTooShort => Thread.Skeins > 0 && Used == Length.Zero;
}

/// <summary>One thread of the list: what is needed of it, what is there, what to buy.</summary>
/// <param name="Pool">What is needed.</param>
/// <param name="Taken">What the stash has of it, nearest first.</param>
/// <param name="Cutting">How it is cut.</param>
/// <param name="WithoutStash">Skeins it would take with nothing at hand.</param>
/// <param name="Substitutes">
/// Other threads of the stash that are near it, nearest first; no more than <see cref="MostSubstitutes"/>, and none where none is near.
/// </param>
public sealed record ThreadLine(
    PooledThread Pool, ImmutableArray<Taken> Taken, SkeinCutting Cutting, int WithoutStash, ImmutableArray<Substitute> Substitutes)
{
    /// <summary>The most substitutes that are looked into.</summary>
    public const int MostSubstitutes = 24;

    /// <summary>Whole skeins to buy.</summary>
    public int ToBuy => Cutting.ToBuy;

    /// <summary>Skeins there are of it.</summary>
    public double AtHand => Taken.Sum(t => t.Thread.Skeins);
}

/// <summary>A cloth of the stash from which is cut.</summary>
/// <param name="Index">Which of the stash's cloths, from 0.</param>
/// <param name="Cloth">The cloth.</param>
/// <param name="Difference">How unlike it is, by CIEDE2000.</param>
/// <param name="Cutting">How it is cut.</param>
/// <param name="Pieces">The pieces cut from it.</param>
public sealed record ClothTaken(int Index, StashCloth Cloth, double Difference, ClothCutting Cutting, ImmutableArray<string> Pieces);

/// <summary>One cloth of the list: a colour and a width.</summary>
/// <param name="Needs">What is needed of it, at least one, in the order of the pieces.</param>
/// <param name="Taken">What is cut from the stash.</param>
/// <param name="ToBuy">How the rest is cut; null when nothing is left to buy.</param>
/// <param name="Short">Cloths of the stash in this colour that have some left, but too little or too narrow for any piece.</param>
public sealed record ClothLine(ImmutableArray<ClothNeed> Needs, ImmutableArray<ClothTaken> Taken, ClothCutting? ToBuy, ImmutableArray<StashCloth> Short)
{
    /// <summary>Width in which it is bought.</summary>
    public Length Width => Needs[0].Cloth.FabricWidth;

    /// <summary>Its colour, as the first piece has it.</summary>
    public Colour Colour => Needs[0].Cloth.Colour;

    /// <summary>Length to buy, in whole steps of the shop.</summary>
    public Length LengthToBuy => ToBuy is { } cutting ? Needs[0].Cloth.Bought(cutting.Length) : Length.Zero;

    /// <summary>Length of it that is used.</summary>
    public Length LengthUsed => ToBuy?.Length ?? Length.Zero;
}

/// <summary>Everything that one or more pieces need, against what is there: what to cut from the stash, and what to buy.</summary>
/// <param name="Pieces">The pieces.</param>
/// <param name="Threads">Threads, pooled; in the order in which the pieces first ask for them.</param>
/// <param name="Cloths">Cloths, pooled.</param>
public sealed record ShoppingList(ImmutableArray<PieceNeeds> Pieces, ImmutableArray<ThreadLine> Threads, ImmutableArray<ClothLine> Cloths)
{
    /// <summary>Whole skeins to buy, of all threads.</summary>
    public int SkeinsToBuy => Threads.Sum(t => t.ToBuy);

    /// <summary>Length of cloth to buy, of all cloths.</summary>
    public Length ClothToBuy => Cloths.Aggregate(Length.Zero, (sum, c) => sum + c.LengthToBuy);

    /// <summary>Makes the list.</summary>
    /// <param name="pieces">What each piece needs.</param>
    /// <param name="stash">What there is.</param>
    /// <exception cref="ArgumentException">A skein is shorter than a needleful; the message says whose.</exception>
    public static ShoppingList Of(IEnumerable<PieceNeeds> pieces, Stash stash)
    {
        ImmutableArray<PieceNeeds> all = [.. pieces];
        return new ShoppingList(all, ThreadShopping.Lines(PooledThread.Of(all.SelectMany(p => p.Threads)), stash), ClothShopping.Lines([.. all.Select(p => p.Cloth)], stash));
    }

    /// <summary>The stash with what was to buy in it: whole skeins, and cloth by the width. Nothing is left to buy then.</summary>
    public Stash Bought(Stash stash)
    {
        var threads = stash.Threads.ToBuilder();
        foreach (var line in Threads.Where(t => t.ToBuy > 0))
        {
            var thread = line.Pool.Thread;
            var at = line.Taken.FirstOrDefault(t => t.Thread.Colour == thread.Colour && t.Thread.SkeinLength == thread.SkeinLength)?.Index;
            if (at is { } there) threads[there] = threads[there] with { Skeins = Math.Min(threads[there].Skeins + line.ToBuy, StashThread.MostSkeins) };
            else threads.Add(new StashThread(NameFor(line), thread.Colour, line.ToBuy) { SkeinLength = thread.SkeinLength, StrandsInSkein = thread.StrandsInSkein, TexPerStrand = thread.TexPerStrand });
        }
        var cloths = stash.Cloths.ToBuilder();
        foreach (var line in Cloths)
            if (line.ToBuy is not null) cloths.Add(new StashCloth(Shortened($"for {line.Needs[0].Piece}"), line.Colour, line.Width, line.LengthToBuy));
        return stash with { Threads = threads.ToImmutable(), Cloths = cloths.ToImmutable() };
    }

    /// <summary>The stash with what the pieces take from it gone; what was bought for them is used up with them, its ends too.</summary>
    public Stash Worked(Stash stash)
    {
        var threads = stash.Threads.ToBuilder();
        foreach (var taken in Threads.SelectMany(t => t.Taken))
            threads[taken.Index] = threads[taken.Index] with { Skeins = Math.Max(0, Math.Round(threads[taken.Index].Skeins - taken.Skeins, 6)) };
        var cloths = stash.Cloths.ToBuilder();
        foreach (var taken in Cloths.SelectMany(c => c.Taken))
        {
            var left = cloths[taken.Index].Left - taken.Cutting.Length;
            cloths[taken.Index] = cloths[taken.Index] with { Left = left > Length.Zero ? left : Length.Zero.In(left.Unit) };
        }
        return stash with { Threads = threads.ToImmutable(), Cloths = cloths.ToImmutable() };
    }

    private static string NameFor(ThreadLine line) =>
        Shortened(line.Pool.Needs.FirstOrDefault(n => !n.IsBack)?.Name ?? ColourWords.For(line.Pool.Thread.Colour));

    // No longer than a name may be, and no half of a character at its end.
    private static string Shortened(string name) =>
        name.Length <= Stash.LongestName ? name : name[..(char.IsHighSurrogate(name[Stash.LongestName - 1]) ? Stash.LongestName - 1 : Stash.LongestName)];
}

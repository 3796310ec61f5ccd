using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Thread;

/// <summary>Strands taken from one cut length for one needleful.</summary>
/// <param name="Length">Which cut length of the skeins' colour, from 1.</param>
/// <param name="Strands">How many strands of it.</param>
public readonly record struct StrandsTaken(int Length, int Strands);

/// <summary>One needleful put together.</summary>
/// <param name="Thread">The thread it is of.</param>
/// <param name="Number">Which needleful of that thread, from 1.</param>
/// <param name="From">The cut lengths it is put together from; more than one when spare strands are used up.</param>
public readonly record struct CutNeedleful(Floss Thread, int Number, ImmutableArray<StrandsTaken> From);

/// <summary>
/// One floss to buy: threads of the piece that are one thread on the shelf (one name, colour and make), whatever their
/// strands in the needle.
/// </summary>
/// <param name="Threads">The threads of the piece cut from it, most strands first.</param>
/// <param name="Skeins">Whole skeins to buy.</param>
/// <param name="Lengths">Working lengths to cut.</param>
/// <param name="Needlefuls">How each needleful is put together.</param>
/// <param name="SpareStrands">Strands of a working length left over when all is put together.</param>
public sealed record CutFloss(
    ImmutableArray<Floss> Threads, int Skeins, int Lengths, ImmutableArray<CutNeedleful> Needlefuls, int SpareStrands)
{
    /// <summary>How many of the lengths are cut longer, to save a start each.</summary>
    public int LongerLengths { get; init; }

    /// <summary>The most by which they are cut longer.</summary>
    public Length LongerBy { get; init; }
}

/// <summary>
/// Cutting in whole numbers. Skeins are cut to working lengths; each length is parted into its strands; a needleful takes
/// its strands from as few lengths as can be, and strands left of one length serve the next needleful: three from one
/// length and three from the same for the next; four, then the two left over with two of another. So no more lengths
/// are cut than strands are needed, whatever mix of four, three and two strands the piece asks for.
/// </summary>
/// <param name="WorkingLength">The length of every cut.</param>
/// <param name="Flosses">What to buy and cut, in the order of the piece's threads.</param>
public sealed record CuttingPlan(Length WorkingLength, ImmutableArray<CutFloss> Flosses)
{
    /// <summary>Skeins in all.</summary>
    public int Skeins => Flosses.Sum(f => f.Skeins);

    /// <summary>Plans the cutting for the needlefuls of each thread.</summary>
    /// <param name="uses">What is used of each thread.</param>
    /// <param name="workingLength">One needleful, more than nothing.</param>
    /// <exception cref="ArgumentException">Thread is needed, but a skein is shorter than one working length.</exception>
    public static CuttingPlan Of(ImmutableArray<ThreadUse> uses, Length workingLength)
    {
        var flosses = ImmutableArray.CreateBuilder<CutFloss>();
        foreach (var group in uses.Where(u => u.Needlefuls > 0).GroupBy(u => OnTheShelf(u.Thread)))
            flosses.Add(Cut(group.Key, [.. group.OrderByDescending(u => u.Thread.Strands)], workingLength));
        return new CuttingPlan(workingLength, flosses.ToImmutable());
    }

    // The same thread whatever its letter and however many strands go in the needle.
    private static Floss OnTheShelf(Floss thread) => thread with { Key = default, Strands = 1, Note = "" };

    private static CutFloss Cut(Floss floss, ImmutableArray<ThreadUse> uses, Length workingLength)
    {
        var perSkein = Cutting.LengthsPerSkein(floss, workingLength);
        if (perSkein == 0) throw new ArgumentException($"A skein of {floss.SkeinLength} gives no needleful of {workingLength}.");
        var inLength = floss.StrandsInSkein;
        var most = (int)((uses.Sum(u => (long)u.Needlefuls * u.Thread.Strands) + inLength - 1) / inLength);
        var spare = new Queue<int>[inLength + 1]; // cut lengths by the strands left of them
        for (var s = 0; s < spare.Length; s++) spare[s] = new Queue<int>();
        var lengths = 0;
        var needlefuls = ImmutableArray.CreateBuilder<CutNeedleful>();
        foreach (var use in uses)
        {
            for (var n = 1; n <= use.Needlefuls; n++)
            {
                var taken = ImmutableArray.CreateBuilder<StrandsTaken>();
                for (var needed = use.Thread.Strands; needed > 0;)
                {
                    var left = Choose(spare, needed, mayCut: lengths < most);
                    var length = left > 0 ? spare[left].Dequeue() : ++lengths;
                    if (left == 0) left = inLength;
                    var take = Math.Min(needed, left);
                    taken.Add(new StrandsTaken(length, take));
                    needed -= take;
                    if (left > take) spare[left - take].Enqueue(length);
                }
                needlefuls.Add(new CutNeedleful(use.Thread, n, taken.ToImmutable()));
            }
        }
        var longer = Math.Min(lengths, uses.Sum(u => u.LongerNeedlefuls));
        var skeins = Cutting.Holding(floss, workingLength, (lengths + perSkein - 1) / perSkein, longer, uses.Max(u => u.LongerBy));
        return new CutFloss([.. uses.Select(u => u.Thread)], skeins, lengths,
            needlefuls.ToImmutable(), spare.Select((lengthsLeft, strands) => strands * lengthsLeft.Count).Sum())
        {
            LongerLengths = longer,
            LongerBy = longer > 0 ? uses.Max(u => u.LongerBy) : Length.Zero,
        };
    }

    // The strands left of the length to take from, 0 to cut a new one: one that serves just so, or with the least over;
    // else a new one while more are to be cut; else the fullest there is.
    private static int Choose(Queue<int>[] spare, int needed, bool mayCut)
    {
        for (var left = needed; left < spare.Length; left++)
            if (spare[left].Count > 0) return left;
        if (mayCut) return 0;
        var fullest = Math.Min(needed, spare.Length) - 1;
        while (fullest > 0 && spare[fullest].Count == 0) fullest--;
        return fullest;
    }
}

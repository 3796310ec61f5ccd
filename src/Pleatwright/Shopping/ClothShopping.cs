using System.Collections.Immutable;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Shopping;

/// <summary>Pooled cloths against the stash.</summary>
internal static class ClothShopping
{
    /// <summary>
    /// Pieces whose cloth is of one width and every two the same colour are cut from one cloth. A piece is cut whole from one cloth:
    /// the piece that asks for most goes first to the nearest cloth of the stash in which it fits; what fits in none is bought.
    /// </summary>
    public static ImmutableArray<ClothLine> Lines(ImmutableArray<ClothNeed> needs, Stash stash)
    {
        var pools = new List<List<(ClothNeed Need, int At)>>();
        foreach (var one in needs.Select((need, at) => (Need: need, At: at)).OrderBy(n => n.Need.Cloth.Colour.ToString(), StringComparer.Ordinal))
        {
            var pool = pools.Find(p => p.TrueForAll(n => AreOne(n.Need.Cloth, one.Need.Cloth)));
            if (pool is null) pools.Add([one]);
            else pool.Add(one);
        }
        var cut = new List<ClothNeed>?[stash.Cloths.Length]; // a cloth of the stash may serve pools of unlike widths
        var lines = pools.Select(p => p.OrderBy(n => n.At).ToArray()).OrderBy(p => p[0].At).ToArray();
        return [.. lines.Select(pool => Line([.. pool.Select(n => n.Need)], stash, cut))];
    }

    private static bool AreOne(ClothPlan a, ClothPlan b) => a.FabricWidth == b.FabricWidth && a.Step == b.Step && IsSame(a.Colour, b.Colour);

    private static bool IsSame(Colour a, Colour b) => ColourDifference.Between(a, b) <= Likenesses.MostSame;

    private static ClothLine Line(ImmutableArray<ClothNeed> needs, Stash stash, List<ClothNeed>?[] cut)
    {
        var own = Enumerable.Range(0, stash.Cloths.Length).Where(c => needs.All(n => IsSame(n.Cloth.Colour, stash.Cloths[c].Colour)))
            .OrderBy(c => Difference(needs, stash.Cloths[c])).ThenBy(c => c).ToArray();
        var here = own.ToDictionary(c => c, _ => new List<ClothNeed>());
        var toBuy = new List<ClothNeed>();
        foreach (var need in needs.OrderByDescending(n => Cut([n], n.Cloth.FabricWidth)!.Length))
        {
            var from = own.Select(c => (int?)c).FirstOrDefault(c => Fits([.. cut[c!.Value] ?? [], need], stash.Cloths[c.Value]));
            if (from is { } at)
            {
                (cut[at] ??= []).Add(need);
                here[at].Add(need);
            }
            else toBuy.Add(need);
        }
        return new ClothLine(needs,
            [.. own.Where(c => here[c].Count > 0).Select(c => new ClothTaken(c, stash.Cloths[c], Difference(needs, stash.Cloths[c]),
                Cut(here[c], stash.Cloths[c].Width)!, [.. here[c].Select(n => n.Piece)]))],
            toBuy.Count == 0 ? null : Cut(toBuy, needs[0].Cloth.FabricWidth),
            [.. own.Where(c => here[c].Count == 0 && stash.Cloths[c].Left > Length.Zero).Select(c => stash.Cloths[c])]);
    }

    private static double Difference(ImmutableArray<ClothNeed> needs, StashCloth cloth) => needs.Max(n => ColourDifference.Between(n.Cloth.Colour, cloth.Colour));

    private static bool Fits(List<ClothNeed> needs, StashCloth cloth) => Cut(needs, cloth.Width) is { } cutting && (cutting.Length - cloth.Left).Millimetres <= Joining.Hair;

    // Null where the seams take up all of so narrow a cloth.
    private static ClothCutting? Cut(List<ClothNeed> needs, Length width) =>
        needs.Exists(n => n.Cloth.Seam * 2 >= width) ? null : ClothCutting.Of(needs.SelectMany(n => n.Strips(width)), width);
}

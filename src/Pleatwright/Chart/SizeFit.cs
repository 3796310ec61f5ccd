using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Edit;
using Pleatwright.Cloth;

namespace Pleatwright.Chart;

/// <summary>
/// Carries a piece over to another size: it is given the other cloth, and repeats fill the new width alike. An accent that repeats as a
/// figure does goes on repeating as it does.
/// </summary>
internal static class SizeFit
{
    /// <summary>The piece in another size.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The cloth cannot take this size; see <see cref="PleatingPlan"/>.</exception>
    public static Piece Fit(Piece piece, Size size)
    {
        var cloth = size.Of(piece.Cloth);
        PleatingPlan from = new(piece.Cloth), to = new(cloth);
        // What leaves a narrow cloth keeps its distance from the middle, or from where it hangs, and shows as falling off.
        var recut = OtherCloth.To(piece, cloth);
        int WidthOf(AccentMark mark) => piece.Placements.FirstOrDefault(p => p.Repeat == mark.Repeat && p.Centre.Panel == mark.Centre.Panel) is { } alike ? piece.Figure(alike.Figure)!.Width : 1;
        return recut with
        {
            Placements = [.. recut.Placements.Zip(piece.Placements, (p, was) => p with { Repeat = Fitted(p.Repeat, piece.Figure(p.Figure)!.Width, was.Centre, p.Centre) })],
            Accents = [.. recut.Accents.Zip(piece.Accents.Where(a => a.GatheringRow.Number <= cloth.GatheringRows), (a, was) => a with { Repeat = Fitted(a.Repeat, WidthOf(was), was.Centre, a.Centre) })],
            Working = recut.Working.BaseRow is { } row && row.Index >= to.CableRows ? recut.Working with { BaseRow = null } : recut.Working,
            Sizes = [],
            SizeName = size.Name,
        };

        // Copies fill the width of what they hang on.
        Repeat Fitted(Repeat repeat, int width, Centre was, Centre now) => Fit(repeat, width, ValleysOf(was, from), ValleysOf(now, to));

        static int ValleysOf(Centre centre, PleatingPlan plan) => centre.Pleats(plan) is var (first, last) ? Math.Max(1, last - first) : 1;
    }

    /// <summary>
    /// Copies for another width: their number and spacing fill the same share of the cloth, with the spacing as near to
    /// the design's as it can be. An odd spacing stays odd and an even one even, so that copies begin on the same level
    /// as before; copies that stood apart stay apart.
    /// </summary>
    internal static Repeat Fit(Repeat repeat, int width, int from, int to)
    {
        if (repeat.Count == 1 || from == to) return repeat;
        if (repeat.Every <= width) return FitBorder(repeat, width, from, to);
        var best = Repeat.Once;
        var nearest = double.PositiveInfinity;
        var share = (double)repeat.Count * repeat.Every / from * to;
        for (var count = 2; count <= Math.Min(Repeat.MostCount, (int)(share / width) + 1); count++)
        {
            var every = NearestAlike(share / count, repeat.Every);
            var off = Math.Abs(Math.Log((double)every / repeat.Every));
            if (every <= width || (count - 1) * every + width > Math.Max(to, 0) || off >= nearest) continue;
            (best, nearest) = (new Repeat(count, every), off);
        }
        // One copy alone answers when the width has no room for two at anything like the design's spacing.
        return nearest <= Math.Abs(Math.Log(Math.Max(share, 1) / repeat.Every)) ? best : Repeat.Once;
    }

    // A border whose copies touch or overlap is one unbroken band: the spacing stays, and as many copies as the width holds.
    private static Repeat FitBorder(Repeat repeat, int width, int from, int to)
    {
        var side = Math.Max(0, (from - (repeat.Count - 1) * repeat.Every - width) / 2);
        var count = (to - 2 * Math.Min(side, repeat.Every) - width) / repeat.Every + 1;
        return count > 1 ? repeat with { Count = Math.Min(count, Repeat.MostCount) } : Repeat.Once;
    }

    // The whole number nearest to a spacing that is odd or even as the design's is.
    internal static int NearestAlike(double spacing, int like) => 2 * (int)Math.Round((spacing - (like & 1)) / 2) + (like & 1);
}

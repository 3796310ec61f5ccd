using Pleatwright.Cloth;

namespace Pleatwright.Chart.Edit;

/// <summary>Makes one copy of a figure a figure of its own, so that it can be changed alone.</summary>
internal static class Detach
{
    /// <summary>
    /// Splits one copy off. Not a stitch moves. The other copies stay together on either side of it.
    /// </summary>
    /// <exception cref="ArgumentException">The middle of the copy, or of those on one side of it, lies off the cloth.</exception>
    /// <returns>The piece, and the index of the copy's own placement.</returns>
    public static (Piece Piece, int Placement) Copy(Piece piece, int placement, int copy)
    {
        var pleating = new PleatingPlan(piece.Cloth);
        var old = piece.Placements[placement];
        if (old.Repeat.Count == 1 && piece.Placements.Count(p => p.Figure == old.Figure) == 1) return (piece, placement);
        var figure = piece.Figure(old.Figure)!;
        var own = piece.FreeName(figure.Name);
        var centre = old.Centre.On(pleating).Number;
        // So many copies from one on, as they lay.
        Placement Part(string name, int first, int count)
        {
            var repeat = count == 1 ? Repeat.Once : old.Repeat with { Count = count };
            var at = centre + old.Repeat.OffsetOf(first) - repeat.OffsetOf(0);
            if (at < 1 && !old.Centre.IsHung) throw new ArgumentException("Some of the copies have their middle off the cloth; move the figure first.");
            return old with { Figure = name, Centre = old.Centre.To(new Valley(at), pleating), Repeat = repeat };
        }

        var split = new List<Placement>();
        if (copy > 0) split.Add(Part(old.Figure, 0, copy));
        split.Add(Part(own, copy, 1));
        if (copy + 1 < old.Repeat.Count) split.Add(Part(old.Figure, copy + 1, old.Repeat.Count - copy - 1));
        return (piece with
        {
            Figures = piece.Figures.Add(figure with { Name = own }),
            Placements = piece.Placements.RemoveAt(placement).InsertRange(placement, split),
        }, copy > 0 ? placement + 1 : placement);
    }
}

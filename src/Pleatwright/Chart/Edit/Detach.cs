using Pleatwright.Cloth;

namespace Pleatwright.Chart.Edit;

/// <summary>Makes one copy of a figure a figure of its own, so that it can be changed alone.</summary>
public static class Detach
{
    /// <summary>
    /// Splits one copy off. Not a stitch moves. The other copies stay together on either side of it.
    /// </summary>
    /// <exception cref="ArgumentException">A copy's middle lies off the cloth.</exception>
    /// <returns>The piece, and the index of the copy's own placement.</returns>
    public static (Piece Piece, int Placement) Copy(Piece piece, int placement, int copy)
    {
        var pleating = new PleatingPlan(piece.Cloth);
        var old = piece.Placements[placement];
        if (old.Repeat.Count == 1 && piece.Placements.Count(p => p.Figure == old.Figure) == 1) return (piece, placement);
        var figure = piece.Figure(old.Figure)!;
        var own = piece.FreeName(figure.Name);
        var centre = old.Centre.On(new Valley(pleating.CentreValley)).Number;
        var split = new List<Placement>();
        for (var i = 0; i < old.Repeat.Count; i++)
        {
            var at = centre + old.Repeat.OffsetOf(i);
            if (at < 1) throw new ArgumentException("One of the copies has its middle off the cloth; move the figure first.");
            split.Add(old with
            {
                Figure = i == copy ? own : old.Figure,
                Centre = at == pleating.CentreValley ? Centre.Middle : Centre.At(new Valley(at)),
                Repeat = Repeat.Once,
            });
        }
        return (piece with
        {
            Figures = piece.Figures.Add(figure with { Name = own }),
            Placements = piece.Placements.RemoveAt(placement).InsertRange(placement, split),
        }, placement + copy);
    }
}

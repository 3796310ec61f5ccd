using Pleatwright.Cloth;

namespace Pleatwright.Chart.Edit;

/// <summary>Gives the piece other cloth.</summary>
public static class Recut
{
    /// <summary>
    /// Changes the cloth. Placements keep their distance from the centre valley, so that the design stays centred when
    /// pleats are added or taken away at the sides; rows are added or taken away at the bottom, and bands on rows that
    /// are gone go with them.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The cloth comes to more pleats or rows than a piece may have.</exception>
    public static Piece To(Piece piece, ClothPlan cloth)
    {
        if (cloth == piece.Cloth) return piece;
        var shift = new PleatingPlan(cloth).CentreValley - new PleatingPlan(piece.Cloth).CentreValley;
        return piece with
        {
            Cloth = cloth,
            Placements = [.. piece.Placements.Select(p => p.Centre.IsMiddle || shift == 0 ? p : p with { Centre = Shifted(p.Centre, shift) })],
            Bands = piece.Bands.RemoveAll(b => b.GatheringRow.Number > cloth.GatheringRows),
        };
    }

    private static Centre Shifted(Centre centre, int shift) =>
        Centre.At(new Valley(Math.Clamp(centre.On(default).Number + shift, 1, PleatingPlan.MostPleats)));
}

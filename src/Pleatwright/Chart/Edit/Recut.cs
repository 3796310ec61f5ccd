using Pleatwright.Cloth;

namespace Pleatwright.Chart.Edit;

/// <summary>Gives the piece other cloth.</summary>
public static class Recut
{
    /// <summary>
    /// Changes the cloth. Placements, accents and bands that do not go from side to side keep their distance from the
    /// centre valley, so that the design stays centred when pleats are added or taken away at the sides; rows are added
    /// or taken away at the bottom, and bands and accents on rows that are gone go with them. Sizes follow where they were as
    /// the piece; those of another form go.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The cloth comes to more pleats or rows than a piece may have.</exception>
    public static Piece To(Piece piece, ClothPlan cloth)
    {
        if (cloth == piece.Cloth) return piece;
        var shift = new PleatingPlan(cloth).CentreValley - new PleatingPlan(piece.Cloth).CentreValley;
        return piece with
        {
            Cloth = cloth,
            Sizes = [.. piece.Sizes.Select(s => s.Follow(piece.Cloth.Form, cloth.Form)).OfType<Size>()],
            Placements = [.. piece.Placements.Select(p => p.Centre.IsMiddle || shift == 0 ? p : p with { Centre = Shifted(p.Centre, shift) })],
            Bands = [.. piece.Bands.Where(b => b.GatheringRow.Number <= cloth.GatheringRows).Select(b => b with { From = Shifted(b.From, shift), To = Shifted(b.To, shift) })],
            Accents =
            [
                .. piece.Accents.Where(a => a.GatheringRow.Number <= cloth.GatheringRows)
                    .Select(a => a.Centre.IsMiddle || shift == 0 ? a : a with { Centre = Shifted(a.Centre, shift) }),
            ],
        };
    }

    private static Pleat? Shifted(Pleat? pleat, int shift) =>
        pleat is { } p ? new Pleat(Math.Clamp(p.Number + shift, 1, PleatingPlan.MostPleats)) : null;

    private static Centre Shifted(Centre centre, int shift) =>
        Centre.At(new Valley(Math.Clamp(centre.On(default).Number + shift, 1, PleatingPlan.MostPleats)));
}

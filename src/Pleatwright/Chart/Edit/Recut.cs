using Pleatwright.Cloth;

namespace Pleatwright.Chart.Edit;

/// <summary>Gives the piece other cloth.</summary>
internal static class Recut
{
    /// <summary>
    /// Changes the cloth. Placements, accents, runs fixed to places, and bands that do not go from side to side keep their distance
    /// from the centre valley, so that the design stays centred when pleats are added or taken away at the sides; rows are added or
    /// taken away at the bottom. Bands and accents on rows that are gone go with them, and so does a band with fewer than two of its
    /// pleats left. Sizes follow where they were as the piece; those of another form go.
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
            Bands = [.. piece.Bands.Where(b => b.GatheringRow.Number <= cloth.GatheringRows).Select(b => Shifted(b, shift)).OfType<Band>()],
            Accents =
            [
                .. piece.Accents.Where(a => a.GatheringRow.Number <= cloth.GatheringRows)
                    .Select(a => a.Centre.IsMiddle || shift == 0 ? a : a with { Centre = Shifted(a.Centre, shift) }),
            ],
            Working = shift == 0 || (piece.Working.Places.IsEmpty && piece.Working.Figures.IsEmpty) ? piece.Working : piece.Working with
            {
                Places = [.. piece.Working.Places.Select(p => p with { Valley = new Valley(Math.Clamp(p.Valley.Number + shift, 1, PleatingPlan.MostPleats)) })],
                Figures = [.. piece.Working.Figures.Select(f => f with { Valley = new Valley(Math.Clamp(f.Valley.Number + shift, 1, PleatingPlan.MostPleats)) })],
            },
        };
    }

    // Null when fewer than two of its pleats are left; at the right they wait beyond the cloth, should it grow again.
    private static Band? Shifted(Band band, int shift)
    {
        var (from, to) = (Shifted(band.From, shift), Shifted(band.To, shift));
        return (from?.Number ?? 1) < (to?.Number ?? int.MaxValue) ? band with { From = from, To = to } : null;
    }

    private static Pleat? Shifted(Pleat? pleat, int shift) =>
        pleat is { } p ? new Pleat(Math.Clamp(p.Number + shift, 1, PleatingPlan.MostPleats)) : null;

    private static Centre Shifted(Centre centre, int shift) =>
        Centre.At(new Valley(Math.Clamp(centre.On(default).Number + shift, 1, PleatingPlan.MostPleats)));
}

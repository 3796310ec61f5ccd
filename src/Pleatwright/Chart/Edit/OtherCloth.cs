using Pleatwright.Cloth;

namespace Pleatwright.Chart.Edit;

/// <summary>Gives the piece other cloth.</summary>
internal static class OtherCloth
{
    /// <summary>
    /// Changes the cloth. What hangs on a panel keeps its distance from where it hangs, wherever the panel lies. Other placements, accents, runs fixed to places, and
    /// bands that do not go from side to side keep their distance from the centre valley, so that the design stays centred when pleats are added
    /// or taken away at the sides, even where they come to lie off the cloth; rows are added or taken away at the bottom. Bands and accents on rows that are gone go
    /// with them, and so does a band with fewer than two of its pleats left. Sizes follow where they were as the piece; those of another form go.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The cloth comes to more pleats or rows than a piece may have.</exception>
    public static Piece To(Piece piece, ClothPlan cloth)
    {
        if (cloth == piece.Cloth) return piece;
        PleatingPlan from = new(piece.Cloth), to = new(cloth);
        var shift = to.CentreValley - from.CentreValley;
        return piece with
        {
            Cloth = cloth,
            Sizes = [.. piece.Sizes.Select(s => s.Follow(piece.Cloth.Form, cloth.Form)).OfType<Size>()],
            Placements = [.. piece.Placements.Select(p => Followed(p.Centre, from, to) is var centre && centre == p.Centre ? p : p with { Centre = centre })],
            Bands = [.. piece.Bands.Where(b => b.GatheringRow.Number <= cloth.GatheringRows).Select(b => Followed(b, from, to)).OfType<Band>()],
            Accents =
            [
                .. piece.Accents.Where(a => a.GatheringRow.Number <= cloth.GatheringRows)
                    .Select(a => Followed(a.Centre, from, to) is var centre && centre == a.Centre ? a : a with { Centre = centre }),
            ],
            Working = piece.Working.Places.IsEmpty && piece.Working.Figures.IsEmpty ? piece.Working : piece.Working with
            {
                Places = [.. piece.Working.Places.Select(p => p with { Valley = RunFollowed(p.Row, p.Valley) })],
                Figures = [.. piece.Working.Figures.Select(f => f with { Valley = RunFollowed(f.Row, f.Valley) })],
            },
        };

        // A place in a figure goes where the figure goes.
        Valley RunFollowed(CableRow row, Valley valley)
        {
            var by = shift;
            foreach (var placement in piece.Placements)
                if (placement.Centre.Panel is not null && Covers(placement, row, valley))
                    by = Followed(placement.Centre, from, to).On(to).Number - placement.Centre.On(from).Number;
            return new Valley(Math.Clamp(valley.Number + by, 1, PleatingPlan.MostPleats));
        }

        bool Covers(Placement placement, CableRow row, Valley valley) => piece.Figure(placement.Figure) is { } figure
            && Enumerable.Range(0, placement.Repeat.Count).Any(copy => Seat.Of(placement, figure, from, copy).Contains(valley, row));
    }

    /// <summary>A centre on other cloth.</summary>
    internal static Centre Followed(Centre centre, PleatingPlan from, PleatingPlan to)
    {
        if (centre.IsMiddle) return centre;
        if (centre.Panel is { } panel)
        {
            if (NameOn(panel, from, to) is { } name) return Centre.Hung(name, centre.From, centre.Valleys);
        }
        else if (centre.IsHung && centre.From != CountedFrom.Centre) return centre;
        var away = centre.On(from).Number - from.CentreValley;
        return to.CentreValley + away is >= 1 and <= PleatingPlan.MostPleats and var valley ? Centre.At(new Valley(valley)) : Centre.Hung(null, CountedFrom.Centre, away);
    }

    // What a panel is called on other cloth: as it was, or by the new name in its place among as many; null when it is gone.
    private static string? NameOn(string panel, PleatingPlan from, PleatingPlan to)
    {
        if (to.Panel(panel) is not null) return panel;
        if (to.Cloth.Form.Kind.Pieces is null || from.Shares.Length != to.Shares.Length) return null;
        for (var i = 0; i < from.Shares.Length; i++)
            if (from.Shares[i].Name == panel) return from.Panel(to.Shares[i].Name) is null ? to.Shares[i].Name : null;
        return null;
    }

    // Null when fewer than two of its pleats are left; at the right they wait beyond the cloth, should it grow again.
    private static Band? Followed(Band band, PleatingPlan from, PleatingPlan to)
    {
        if (band.Panel is not { } panel) return Shifted(band, to.CentreValley - from.CentreValley);
        if (NameOn(panel, from, to) is not { } name) return Shifted(band.On(from), to.CentreValley - from.CentreValley);
        return Shifted(band with { Panel = name }, to.Panel(name)!.Value.Pleats / 2 - from.Panel(panel)!.Value.Pleats / 2);
    }

    private static Band? Shifted(Band band, int shift)
    {
        if (shift == 0) return band;
        var (from, to) = (Shifted(band.From, shift), Shifted(band.To, shift));
        return (from?.Number ?? 1) < (to?.Number ?? int.MaxValue) ? band with { From = from, To = to } : null;
    }

    private static Pleat? Shifted(Pleat? pleat, int shift) =>
        pleat is { } p ? new Pleat(Math.Clamp(p.Number + shift, 1, PleatingPlan.MostPleats)) : null;
}

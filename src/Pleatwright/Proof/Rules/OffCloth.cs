using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Proof.Rules;

/// <summary>Stitches asked for beyond the cloth: in or past the seam pleats, above the first gathering row or below the last.</summary>
internal sealed class OffCloth : Rule
{
    private enum Side { Above, Below, Left, Right }

    /// <inheritdoc/>
    public override string Name => "off-cloth";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        var places = new Dictionary<(int Placement, Side Side), Place>();
        foreach (var stray in work.Strays)
        {
            var side = stray.Row.Index < 0 ? Side.Above : stray.Row.Index >= work.CableRows ? Side.Below
                : stray.From.Number < 1 ? Side.Left : Side.Right;
            var place = Place.In(stray.Row, stray.From, stray.To);
            places[(stray.Placement, side)] = places.TryGetValue((stray.Placement, side), out var other) ? other.And(place) : place;
        }
        foreach (var ((placement, side), place) in places)
            if (findings.Tells(Severity.Error, place))
                findings.Add(Severity.Error, place, Message(work, work.Footprints[placement], side, place), Remedy(side), MendOf(work, work.Footprints[placement]));
    }

    private static string Message(Work work, Footprint placed, Side side, Place place)
    {
        var figure = $"“{placed.Figure.Name}”";
        var last = work.Piece.Cloth.GatheringRows;
        return side switch
        {
            Side.Above => $"{figure} reaches {Counting.Of(-place.Top.Index, "cable row")} above gathering row 1.",
            Side.Below => $"{figure} reaches {Counting.Of(place.Bottom.Index - work.CableRows + 1, "cable row")} below gathering row {last}, the last.",
            Side.Left => $"{figure} reaches {Past(work, 1 - place.From.Number)} the left edge, {Say.Rows(work, place.On(work))}.",
            _ => $"{figure} reaches {Past(work, place.To.Number - work.Valleys)} the right edge, {Say.Rows(work, place.On(work))}.",
        };
    }

    // So many valleys beyond the last take as many pleats beyond the last; the first of those are the seam pleats.
    private static string Past(Work work, int pleats)
    {
        var seam = work.Piece.Cloth.SeamPleats;
        return seam == 0 ? $"{Counting.Of(pleats, "pleat")} past"
            : pleats <= seam ? $"{Counting.Of(pleats, "pleat")} into the seam pleats at"
            : $"through the {Counting.Of(seam, "seam pleat")} and {Counting.Of(pleats - seam, "pleat")} off the cloth past";
    }

    private static string Remedy(Side side) => side switch
    {
        Side.Above => "Place it lower, or leave off its top rows; nothing can be stitched above the first gathering row.",
        Side.Below => "Place it higher, gather more rows, or leave off its bottom rows.",
        _ => "Move it in, make it or its repeats narrower, or plan a wider piece; the seam pleats are undone into the seam.",
    };

    private static Mend? MendOf(Work work, Footprint placed)
    {
        // The least move that brings all of it back; up or down by whole spaces, so that its level row stays level.
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        var across = placed.From.Number < 1 ? 1 - placed.From.Number : Math.Min(0, work.Valleys - placed.To.Number);
        var spaces = placed.Top.Index < 0 ? (-placed.Top.Index + perSpace - 1) / perSpace
            : -Math.Max(0, (placed.Bottom.Index - work.CableRows + perSpace) / perSpace);
        if (!Mending.MayMove(work, placed, across, spaces * perSpace)) return null;
        var centre = placed.Placement.Centre.On(work.Pleating).Number + across;
        var row = placed.Placement.GatheringRow.Number + spaces;
        if (centre < 1 || row < 1) return null;
        return new Mend($"Move “{placed.Figure.Name}” onto the cloth", piece => piece.WithPlacement(placed.Index, p => p with
        {
            Centre = across == 0 ? p.Centre : p.Centre.To(new Valley(centre), work.Pleating),
            GatheringRow = new GatheringRow(row),
        }));
    }
}

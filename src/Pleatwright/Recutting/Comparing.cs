using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Cloth;

namespace Pleatwright.Recutting;

/// <summary>What lies otherwise in a piece recut, as facts: first what changed, then what was lost.</summary>
internal static class Comparing
{
    /// <summary>The changes from a piece to the same recut.</summary>
    /// <param name="piece">The piece as it was.</param>
    /// <param name="then">The piece recut.</param>
    /// <param name="back">The recut piece cut back again: what is not as it was has been lost.</param>
    public static ImmutableArray<RecutChange> Of(Piece piece, Piece then, Piece back)
    {
        Work was = Work.Lay(piece), becomes = Work.Lay(then);
        return
        [
            .. Cloth(was, becomes), .. Figures(piece, then), .. Placements(piece, then), .. Bands(piece, then), .. Accents(piece, then), .. Rest(was, becomes),
            .. NotBack(piece, back), .. Troubles(was, becomes),
        ];
    }

    private static IEnumerable<RecutChange> Cloth(Work was, Work becomes)
    {
        if (was.Pleating.Gauge != becomes.Pleating.Gauge) yield return new RecutChange.OtherGauge(was.Pleating.Gauge, becomes.Pleating.Gauge);
        if (was.Piece.Cloth != becomes.Piece.Cloth) yield return new RecutChange.OtherCloth(was.Pleating, becomes.Pleating);
    }

    private static IEnumerable<RecutChange> Figures(Piece piece, Piece then)
    {
        foreach (var (one, other) in piece.Figures.Zip(then.Figures))
        {
            if ((one.Width, one.Height) != (other.Width, other.Height)) yield return new RecutChange.Redrawn(one.Name, one.Width, one.Height, other.Width, other.Height);
            if (one.Halves.Length != other.Halves.Length) yield return new RecutChange.Halves(one.Name, one.Halves.Length, other.Halves.Length);
        }
    }

    private static IEnumerable<RecutChange> Placements(Piece piece, Piece then)
    {
        foreach (var (one, other) in piece.Placements.Zip(then.Placements))
            foreach (var change in Moved(RecutThing.Figure, one.Figure, one.GatheringRow, other.GatheringRow, one.Centre, other.Centre, one.Repeat, other.Repeat))
                yield return change;
    }

    private static IEnumerable<RecutChange> Moved(RecutThing thing, string name, GatheringRow row, GatheringRow rowThen, Centre centre, Centre centreThen, Repeat repeat, Repeat repeatThen)
    {
        if (row != rowThen) yield return new RecutChange.OtherRow(thing, name, row.Number, rowThen.Number);
        if (centre != centreThen && !centre.IsMiddle && !centreThen.IsMiddle) yield return new RecutChange.OtherValley(thing, name, centre.Valleys, centreThen.Valleys);
        if (repeat != repeatThen) yield return new RecutChange.Respaced(thing, name, repeat.Count, repeat.Every, repeatThen.Count, repeatThen.Every);
    }

    private static IEnumerable<RecutChange> Bands(Piece piece, Piece then)
    {
        foreach (var (one, other) in piece.Bands.Zip(then.Bands))
        {
            if (one.GatheringRow != other.GatheringRow) yield return new RecutChange.OtherRow(RecutThing.Band, one.Stitch, one.GatheringRow.Number, other.GatheringRow.Number);
            if ((one.From, one.To) != (other.From, other.To)) yield return new RecutChange.OtherEnds(one.Stitch, one.From?.Number, one.To?.Number, other.From?.Number, other.To?.Number);
            if ((one.Offset, one.Drop) != (other.Offset, other.Drop)) yield return new RecutChange.OtherDepth(RecutThing.Band, one.Stitch);
        }
    }

    private static IEnumerable<RecutChange> Accents(Piece piece, Piece then)
    {
        foreach (var (one, other) in piece.Accents.Zip(then.Accents))
        {
            foreach (var change in Moved(RecutThing.Accent, one.Accent, one.GatheringRow, other.GatheringRow, one.Centre, other.Centre, one.Repeat, other.Repeat)) yield return change;
            if ((one.Offset, one.Drop, one.Size) != (other.Offset, other.Drop, other.Size)) yield return new RecutChange.OtherDepth(RecutThing.Accent, one.Accent);
        }
    }

    private static IEnumerable<RecutChange> Rest(Work was, Work becomes)
    {
        Piece piece = was.Piece, then = becomes.Piece;
        if (piece.Phase != then.Phase) yield return new RecutChange.PhaseTurned();
        if (piece.Working.BaseRow is { } row && then.Working.BaseRow is { } rowThen && row != rowThen) yield return new RecutChange.OtherBaseRow(row.Index, rowThen.Index);
        if (!piece.Sizes.SequenceEqual(then.Sizes)) yield return new RecutChange.SizesRecut(piece.Sizes.Length);
        if (!piece.Swatches.IsEmpty && IsOtherPleating(piece.Cloth.Gauge, then.Cloth.Gauge)) yield return new RecutChange.SwatchesOfOldGauge(piece.Swatches.Length);
        if (was.Cables != becomes.Cables) yield return new RecutChange.CableCount(was.Cables, becomes.Cables);
        if (!SameStitches(was, becomes)) yield return new RecutChange.StitchesMoved(piece.Cloth.Gauge != then.Cloth.Gauge ? null : piece.Figures.FirstOrDefault(f => then.Figure(f.Name) is { } now && (now.Width, now.Height) != (f.Width, f.Height))?.Name);
    }

    private static bool IsOtherPleating(Gauge one, Gauge other) => one.Pitch != other.Pitch || one.TakeUp != other.TakeUp;

    private static bool SameStitches(Work one, Work other) => one.Valleys == other.Valleys && one.Pleating.Gauge.CableRowsPerSpace == other.Pleating.Gauge.CableRowsPerSpace
        && one.Runs.SequenceEqual(other.Runs) && one.Piece.Bands.SequenceEqual(other.Piece.Bands) && one.Piece.Accents.SequenceEqual(other.Piece.Accents);

    // What cutting back does not give again.
    private static IEnumerable<RecutChange> NotBack(Piece piece, Piece back)
    {
        foreach (var (one, found) in piece.Figures.Zip(back.Figures))
        {
            // Of another height or width by a rounding, it is told stitch by stitch all the same.
            var other = FigureSampler.Draw(found, one.Width, one.Height, one.Height - 1, piece.Threads);
            var of = one.Rows.Sum(r => r.Length - r.AsSpan().Count(Figure.Bare));
            var lost = one.Rows.Zip(other.Rows).Sum(r => r.First.Zip(r.Second).Count(c => c.First != c.Second)) + one.Halves.Except(other.Halves).Union(other.Halves.Except(one.Halves)).Count();
            if (lost > 0) yield return new RecutChange.DetailLost(one.Name, lost, Math.Max(of, lost));
            if ((one.Width, one.Height) != (found.Width, found.Height)) yield return new RecutChange.SizeLost(one.Name);
        }
        foreach (var (one, other) in piece.Placements.Zip(back.Placements))
            if (one != other) yield return new RecutChange.PlaceLost(RecutThing.Figure, one.Figure);
        foreach (var (one, other) in piece.Bands.Zip(back.Bands))
            if (one != other) yield return new RecutChange.PlaceLost(RecutThing.Band, one.Stitch);
        foreach (var (one, other) in piece.Accents.Zip(back.Accents))
            if (one != other) yield return new RecutChange.PlaceLost(RecutThing.Accent, one.Accent);
        if (piece.Cloth != back.Cloth || piece.Phase != back.Phase || !piece.Sizes.SequenceEqual(back.Sizes) || piece.Working.BaseRow != back.Working.BaseRow) yield return new RecutChange.ClothLost();
        var (runs, figures) = (piece.Working.Places.Except(back.Working.Places).Count(), piece.Working.Figures.Except(back.Working.Figures).Count());
        if (runs + figures > 0) yield return new RecutChange.OrderLetGo(runs, figures);
    }

    private static IEnumerable<RecutChange> Troubles(Work was, Work becomes)
    {
        foreach (var figure in was.Piece.Figures)
            if (OffCloth(was, figure.Name) is var before && OffCloth(becomes, figure.Name) is var after && before == 0 && after > 0)
                yield return new RecutChange.FallsOff(figure.Name, after);
        foreach (var (one, other) in SizeTable.Meetings(becomes.Piece, becomes.Pleating).Except(SizeTable.Meetings(was.Piece, was.Pleating)).Order())
            yield return new RecutChange.RunsInto(becomes.Piece.Placements[one].Figure, becomes.Piece.Placements[other].Figure);
        if (becomes.RefusedHalves.Length > was.RefusedHalves.Length) yield return new RecutChange.HalvesRefused(becomes.RefusedHalves.Length - was.RefusedHalves.Length);
    }

    private static int OffCloth(Work work, string figure) =>
        work.Strays.Where(s => work.Piece.Placements[s.Placement].Figure == figure).Sum(s => s.To.Number - s.From.Number + 1);
}

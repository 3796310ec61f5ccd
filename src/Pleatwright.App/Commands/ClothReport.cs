using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.App.Commands;

/// <summary>The parts of a plan that tell of the cloth: panels, joins, passes, sizes and swatches.</summary>
internal static class ClothReport
{
    public static object Panels(PleatingPlan plan) => plan.Shares.Select(s => new
    {
        name = s.Name,
        cutMm = Millimetres(s.Cut),
        pleats = s.Pleats,
        firstPleat = s.First,
        lastPleat = s.Last,
    });

    public static object? Wings(ClothPlan cloth) => Pleatwright.Cloth.Wings.Of(cloth) is { } wings
        ? new { eachMm = Millimetres(wings.Each), cutWidthMm = Millimetres(wings.CutWidth), cutDepthMm = Millimetres(wings.CutDepth) }
        : null;

    public static object Joins(PleatingPlan plan) => plan.Joins.Select(j => new { valley = j.Valley, between = j.Between });

    public static object Passes(PleatingPlan plan) => plan.Passes.Select(p => new { first = p.First, last = p.Last, again = p.Again });

    public static object Rows(PleatingPlan plan) => Enumerable.Range(1, plan.Cloth.GatheringRows).Select(row => new
    {
        gatheringRow = row,
        depthMm = Millimetres(plan.Gauge.RowSpacing * (row - 1)),
        pitchMm = Millimetres(plan.PitchAt((row - 1) * plan.Gauge.CableRowsPerSpace)),
    });

    public static object Sizes(Piece piece) => Table(piece).Select(line => new
    {
        name = line.Name,
        fits = line.Fits,
        pleats = line.Pleating?.Pleats,
        cutWidthMm = line.Pleating is { } p ? Millimetres(p.CutWidth) : (double?)null,
        finishedWidthMm = line.Pleating is { } q ? Millimetres(q.FinishedWidth) : (double?)null,
        gatheringRows = line.Pleating?.Cloth.GatheringRows,
        figures = line.Placements.Select(f => new { figure = f.Figure, copies = f.Copies, every = f.Every, gap = f.Gap, side = f.Side }),
        troubles = line.Troubles,
        refusals = line.Refusals.Select(r => new { kind = r.Kind.ToString(), what = r.What, panel = r.Panel, other = r.Other, by = r.By, has = r.Has, needs = r.Needs }),
    });

    public static object? Swatch(Piece piece) => piece.Calibration is { } found
        ? new { pitchMm = Range(found.Pitch), takeUpMm = Range(found.TakeUp), threadFactor = Range(found.ThreadFactor) }
        : null;

    public static void Say(Work work, UnitSystem units)
    {
        foreach (var line in ClothWords.Of(work.Pleating, units)) Console.WriteLine($"{line.Label,-10}{line.Words}");
        foreach (var remark in Practice.Remarks(work.Piece.Cloth, units)) Console.WriteLine($"{"Note",-10}{remark}");
        if (work.Piece.Calibration is not { } found) return;
        var label = "Swatch";
        foreach (var words in CalibrationWords.Of(found, work.Piece.Cloth.Gauge))
        {
            Console.WriteLine($"{label,-10}{words}");
            label = "";
        }
    }

    public static void SaySizes(Piece piece, UnitSystem units)
    {
        var table = Table(piece);
        if (table.IsEmpty) return;
        Console.WriteLine();
        Console.WriteLine("Sizes");
        var widest = table.Max(l => l.Name.Length);
        foreach (var line in table)
            foreach (var words in SizeWords.Of(line, units))
                Console.WriteLine($"  {line.Name.PadRight(widest)}  {words}");
    }

    private static object? Range(Estimate? estimate) => estimate is { } e
        ? new { value = Math.Round(e.Value, 6), low = e.HalfRange is null ? (double?)null : Math.Round(e.Low, 6), high = e.HalfRange is null ? (double?)null : Math.Round(e.High, 6), swatches = e.Count }
        : null;

    // The piece's own size leads the table there; here it has been said already.
    private static ImmutableArray<SizeLine> Table(Piece piece) =>
        piece.Sizes.IsEmpty ? [] : SizeTable.Of(piece).RemoveAt(0);

    private static double Millimetres(Length length) => Math.Round(length.Millimetres, 4);
}

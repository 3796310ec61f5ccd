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
    });

    public static object? Swatch(Piece piece) => piece.Calibration is { } found
        ? new { pitchMm = Range(found.Pitch), takeUpMm = Range(found.TakeUp), threadFactor = Range(found.ThreadFactor) }
        : null;

    public static void Say(Work work, UnitSystem units)
    {
        foreach (var line in ClothWords.Of(work.Pleating, units)) Console.WriteLine($"{line.Label,-10}{line.Words}");
        foreach (var remark in Practice.Remarks(work.Piece.Cloth, units)) Console.WriteLine($"{"Note",-10}{remark}");
        SaySwatch(work.Piece);
    }

    public static void SaySizes(Piece piece, UnitSystem units)
    {
        var table = Table(piece);
        if (table.IsEmpty) return;
        Console.WriteLine();
        Console.WriteLine("Sizes");
        var widest = table.Max(l => l.Name.Length);
        foreach (var line in table)
        {
            var name = line.Name.PadRight(widest);
            if (line.Pleating is { } plan)
                Console.WriteLine($"  {name}  {plan.FinishedWidth.Say(units)} finished, cut {plan.CutWidth.Say(units)}, {plan.Pleats} pleats, {plan.Cloth.GatheringRows} gathering rows"
                    + string.Concat(line.Placements.Where(f => f.Copies > 1).Select(f => $"; {f.Copies} × {f.Figure} every {f.Every}, {f.Gap} between")));
            foreach (var trouble in line.Troubles) Console.WriteLine($"  {name}  cannot take the design: {trouble}");
        }
    }

    private static void SaySwatch(Piece piece)
    {
        if (piece.Calibration is not { } found) return;
        Console.WriteLine($"{"Swatch",-10}pitch {Words(found.Pitch, " mm")}"
            + (found.TakeUp is { } takeUp ? $", take-up {Words(takeUp, " mm")}" : "")
            + (found.ThreadFactor is { } factor ? $", thread {Words(factor, "")} times what is reckoned" : ""));
        if (!found.Pitch.Allows(piece.Cloth.Gauge.Pitch.Millimetres))
            Console.WriteLine($"{"",-10}the pitch of the gauge, {piece.Cloth.Gauge.Pitch.Millimetres:0.###} mm, lies outside that range");
    }

    private static string Words(Estimate estimate, string unit) =>
        FormattableString.Invariant($"{estimate.Value:0.###}{unit}")
        + (estimate.HalfRange is { } half ? FormattableString.Invariant($" ± {half:0.###} (95 %, {estimate.Count} swatches)") : " (one swatch, no range)");

    private static object? Range(Estimate? estimate) => estimate is { } e
        ? new { value = Math.Round(e.Value, 6), low = e.HalfRange is null ? (double?)null : Math.Round(e.Low, 6), high = e.HalfRange is null ? (double?)null : Math.Round(e.High, 6), swatches = e.Count }
        : null;

    // The piece's own size leads the table there; here it has been said already.
    private static System.Collections.Immutable.ImmutableArray<SizeLine> Table(Piece piece) =>
        piece.Sizes.IsEmpty ? [] : SizeTable.Of(piece).RemoveAt(0);

    private static double Millimetres(Length length) => Math.Round(length.Millimetres, 4);
}

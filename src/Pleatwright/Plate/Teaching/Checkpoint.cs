using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Order;

namespace Pleatwright.Plate.Teaching;

/// <summary>A place where the teacher counts before the class goes on.</summary>
/// <param name="Where">When it is reached.</param>
/// <param name="Count">What must be counted there.</param>
internal sealed record Checkpoint(string Where, string Count)
{
    /// <summary>The checkpoints of a plate: the gathered cloth and its back before the class, and every row that meets a gathering row.</summary>
    public static ImmutableArray<Checkpoint> Of(PlateDocument plate)
    {
        var order = plate.Order;
        var points = ImmutableArray.CreateBuilder<Checkpoint>();
        points.Add(Gathered(plate));
        var back = order.Backsmock;
        if (!back.Rows.IsEmpty)
            points.Add(new("Before the class, when the back is done", $"{Counting.Of(back.Rows.Length, "line")} of cables on {Counting.Of(back.Rows.Select(r => r.Row).Distinct().Count(), "gathering row")}, "
                + $"{Counting.Of(back.Cables, "cable")} in all. Nothing of it shows on the right side."));
        int cables = 0, needlefuls = 0, done = 0;
        foreach (var item in ClassItem.Of(order, Directions.Write(order, plate.Options.Levels)))
        {
            foreach (var words in item.Work.Words.Where(w => w.Kind == DirectionKind.LevelCheck))
            {
                if (item.Work.Step is not { } step) points.Add(new($"After {char.ToLowerInvariant(item.Name[0])}{item.Name[1..]}", $"{Counting.Of(item.Stitches, "stitch", "stitches")} in it. {words.Text}"));
                else
                {
                    for (; done < step.Number; done++)
                    {
                        cables += order.Steps[done].Cables;
                        if (order.Steps[done].Threads) needlefuls++;
                    }
                    points.Add(OnRow(order, step, cables, needlefuls));
                }
            }
        }
        return points.ToImmutable();
    }

    private static Checkpoint Gathered(PlateDocument plate)
    {
        var plan = plate.Work.Pleating;
        var cloth = plan.Cloth;
        return new("Before the class, when it is gathered",
            $"{Counting.Of(plan.PleatsToGather, "pleat")}: {plan.Pleats} to stitch and {cloth.SeamPleats} for the seam at each side. "
            + $"{Counting.Of(plan.RowsToGather, "row")} gathered. The centre is valley {plan.CentreValley}: {plan.CentreValley} pleats lie on either side of it. "
            + $"Drawn up, the cloth is {Measure.LengthWords.Say(plan.FinishedWidth, plate.Options.Units)} {cloth.Form.Lies}.");
    }

    // All that lies on the step's row within its area.
    private static Checkpoint OnRow(WorkingOrder order, Step step, int cables, int needlefuls)
    {
        var work = order.Work;
        var area = work.Areas.AreaOf(step.RunIndex);
        var inRow = 0;
        int first = int.MaxValue, last = 0, runs = 0;
        var level = Level.Up;
        for (var i = work.FirstRunIndex(step.Row); i < work.FirstRunIndex(new CableRow(step.Row.Index + 1)); i++)
        {
            if (work.Areas.AreaOf(i) != area) continue;
            var run = work.Runs[i];
            if (run.FirstPleat.Number < first) (first, level) = (run.FirstPleat.Number, run.LevelAt(run.From));
            last = Math.Max(last, run.LastPleat.Number);
            inRow += run.Cables;
            runs++;
        }
        var row = step.Row.Index / work.Pleating.Gauge.CableRowsPerSpace + 1;
        return new($"After step {step.Number}: gathering row {row}",
            $"{Counting.Of(inRow, "cable")} in the row{(runs > 1 ? $", in {runs} runs" : "")}, over pleats {first} to {last}; seen upright, the one at its left end lies {(level == Level.Up ? "up" : "down")}. "
            + $"So far {Counting.Of(cables, "cable")} and {Counting.Of(needlefuls, "needleful")}.");
    }
}

using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Order;

/// <summary>What a thread does on the wrong side.</summary>
public enum BackPathKind
{
    /// <summary>A new thread comes up in the valley between the run's first two pleats.</summary>
    Start,

    /// <summary>A thread is carried from the end of one run to the beginning of the next.</summary>
    Carry,

    /// <summary>A thread goes down in the valley before the run's last pleat and is cabled once or twice on the back.</summary>
    TieOff,
}

/// <summary>A place on the cloth, seen from the right side with the top edge up.</summary>
/// <param name="Pleat">
/// Across, in pleats: pleat p is p, the valley between p and p + 1 is p + 0.5. Seen from the back it is mirrored: what is
/// p here lies at pleats + 1 - p from the left.
/// </param>
/// <param name="Row">Down, in cable rows: the middle of row y is y + 0.5, its upper line y to y + 0.5.</param>
public readonly record struct BackPoint(double Pleat, double Row);

/// <summary>One stretch of thread on the wrong side.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Step">
/// Number of the step it belongs to: the one begun by it, or ended by it for a tie-off; 0 for bands and accents.
/// </param>
/// <param name="Thread">Its thread.</param>
/// <param name="Points">
/// Where it lies, corner by corner. A carry runs along its pleat to the new row, then sideways. A start and a tie-off
/// lie over one or two pleats beside their valley.
/// </param>
public sealed record BackPath(BackPathKind Kind, int Step, ThreadKey Thread, ImmutableArray<BackPoint> Points)
{
    /// <summary>The wrong side of every step of an order: its start or its carry, then its tie-off.</summary>
    public static ImmutableArray<BackPath> Of(WorkingOrder order)
    {
        var paths = ImmutableArray.CreateBuilder<BackPath>();
        foreach (var step in order.Steps)
        {
            var rise = At(step.From, step.Row, step.Begin);
            var to = At(step.To, step.Row, step.End);
            var onward = order.TravelsRight(step) ? 1 : -1;
            if (step.Starts == StartKind.New)
                paths.Add(new BackPath(BackPathKind.Start, step.Number, step.Thread, [rise with { Pleat = rise.Pleat + onward }, rise]));
            else
            {
                var before = order.Steps[order.LastStepOf(step) - 1];
                var left = At(before.To, before.Row, before.End);
                var corner = new BackPoint(left.Pleat, rise.Row);
                paths.Add(new BackPath(BackPathKind.Carry, step.Number, step.Thread, corner == left || corner == rise ? [left, rise] : [left, corner, rise]));
            }
            // back over the pleats just worked, so that nothing shows past the run's end
            if (step.TieOff)
                paths.Add(new BackPath(BackPathKind.TieOff, step.Number, step.Thread, [to, to with { Pleat = to.Pleat - onward }, to with { Pleat = to.Pleat - onward * Math.Min(2, step.Cables) }]));
        }
        return paths.ToImmutable();
    }

    /// <summary>The wrong side of the bands and accents, in the order worked; of a tail left at the centre its tie-off alone.</summary>
    public static ImmutableArray<BackPath> OfBands(WorkingOrder order)
    {
        var paths = ImmutableArray.CreateBuilder<BackPath>();
        var perSpace = order.Work.Pleating.Gauge.CableRowsPerSpace;
        var left = default(BackPoint);
        foreach (var step in order.Bands.Steps)
        {
            var thread = step.Band.Band.Thread;
            var onward = Math.Sign(step.Pass.Stitches[^1].To.Pleat.Number - step.Pass.Stitches[0].From.Pleat.Number);
            var rise = At(step.Begin.From.Pleat.Number + 0.5 * onward, step.Begin.From.Depth, perSpace);
            if (step.Starts) paths.Add(new BackPath(BackPathKind.Start, 0, thread, [rise with { Pleat = rise.Pleat + onward }, rise]));
            else if (step.Thread == BandThread.Carry)
            {
                var corner = new BackPoint(left.Pleat, rise.Row);
                paths.Add(new BackPath(BackPathKind.Carry, 0, thread, corner == left || corner == rise ? [left, rise] : [left, corner, rise]));
            }
            left = At(step.End.To.Pleat.Number - 0.5 * onward, step.End.To.Depth, perSpace);
            if (!step.TieOff) continue;
            var over = Math.Min(2, Math.Abs(step.End.To.Pleat.Number - step.Begin.From.Pleat.Number));
            paths.Add(new BackPath(BackPathKind.TieOff, 0, thread, [left, left with { Pleat = left.Pleat - onward }, left with { Pleat = left.Pleat - onward * over }]));
        }
        foreach (var accent in order.Bands.Accents)
        {
            var at = At(accent.Laid.Valley.Number + 0.5, accent.Laid.Depth, perSpace);
            paths.Add(new BackPath(BackPathKind.Start, 0, accent.Laid.Mark.Thread, [at with { Pleat = at.Pleat - 0.5 }, at]));
            paths.Add(new BackPath(BackPathKind.TieOff, 0, accent.Laid.Mark.Thread, [at, at with { Pleat = at.Pleat + 0.5 }, at with { Pleat = at.Pleat + 0.5 }]));
        }
        return paths.ToImmutable();
    }

    /// <summary>Where the backsmocking's thread goes from row to row, corner by corner: along the pleat, then sideways.</summary>
    public static IEnumerable<ImmutableArray<BackPoint>> CarriesOfBacksmocking(WorkingOrder order)
    {
        var perSpace = order.Work.Pleating.Gauge.CableRowsPerSpace;
        foreach (var row in order.Backsmock.Rows)
        {
            if (row.Carried == Length.Zero) continue;
            var to = At(row.Begin.Number, row.Row.Number - 1, perSpace);
            var left = At(row.Begin.Number - row.CarriedPleats, row.Row.Number - 2, perSpace); // the row before lies a space above
            yield return row.CarriedPleats == 0 ? [left, to] : [left, left with { Row = to.Row }, to];
        }
    }

    private static BackPoint At(double pleat, double depth, int perSpace) => new(pleat, depth * perSpace + 0.5);

    private static BackPoint At(Valley valley, CableRow row, Level level) =>
        new(valley.Number + 0.5, row.Index + (level == Level.Up ? 0.25 : 0.75));
}

using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Moves;
using Pleatwright.Order;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Chair;

/// <summary>A stitch as the hands see it: a brick of one line, over two pleats, or over one when it is a half stitch.</summary>
/// <param name="Left">Its left edge as held, in pleats from the left edge of the cloth as held.</param>
/// <param name="Line">The line it lies on as held, from 0 at the edge that is then uppermost.</param>
/// <param name="Pleats">Pleats it covers: 1 or 2.</param>
/// <param name="Thread">Its thread; null for backsmocking, which is worked near the cloth's colour.</param>
/// <param name="Held">Its level as held.</param>
public readonly record struct SceneStitch(double Left, double Line, int Pleats, ThreadKey? Thread, Level Held);

/// <summary>
/// The run under way in its surroundings, as the hands hold the work: what is worked already, which the run butts, what is still to
/// come, and the bare pleats between. Turned work is seen turned; backsmocking is seen from the wrong side.
/// </summary>
public sealed class HeldScene
{
    private HeldScene(ImmutableArray<SceneStitch> run, ImmutableArray<SceneStitch> worked, ImmutableArray<SceneStitch> ahead, ImmutableArray<double> gathering, int pleats, int lines, bool forward) =>
        (Run, Worked, Ahead, GatheringRows, Pleats, Lines, IsForward) = (run, worked, ahead, gathering, pleats, lines, forward);

    /// <summary>The stitches of the item, in the order worked: one for each tick.</summary>
    public ImmutableArray<SceneStitch> Run { get; }

    /// <summary>Stitches of other items near it that are worked.</summary>
    public ImmutableArray<SceneStitch> Worked { get; }

    /// <summary>Stitches of other items near it that are not.</summary>
    public ImmutableArray<SceneStitch> Ahead { get; }

    /// <summary>Where the gathering threads run, in lines as held.</summary>
    public ImmutableArray<double> GatheringRows { get; }

    /// <summary>Pleats of the cloth.</summary>
    public int Pleats { get; }

    /// <summary>Lines of the cloth, two a cable row.</summary>
    public int Lines { get; }

    /// <summary>Whether the hands work from left to right as held.</summary>
    public bool IsForward { get; }

    /// <summary>The scene of an item of cables or of backsmocking; null for what has a picture of another kind. Stitches lie where their moves lay them.</summary>
    /// <param name="order">The order.</param>
    /// <param name="item">The item.</param>
    /// <param name="worked">The stitches ticked.</param>
    /// <param name="reach">How many pleats and lines beside a run's own are looked at; what lies further is left out.</param>
    public static HeldScene? Of(WorkingOrder order, WorkItem item, Worked worked, int reach = 30)
    {
        if (item.Step is { } step) return OfRun(order, step, worked, reach);
        return item.Told.Back is { } back ? new Hold(order.Work, back.Turned) { IsBack = true }.Scene(StepMoves.Of(order, back), null, [], []) : null;
    }

    private static HeldScene OfRun(WorkingOrder order, Step step, Worked worked, int reach)
    {
        var hold = new Hold(order.Work, step.Turned);
        var (done, ahead) = (ImmutableArray.CreateBuilder<SceneStitch>(), ImmutableArray.CreateBuilder<SceneStitch>());
        double left = Math.Min(step.From.Number, step.To.Number) - reach - 1, right = Math.Max(step.From.Number, step.To.Number) + reach + 1;
        foreach (var other in order.Steps)
        {
            if (other.Number == step.Number || Math.Abs(other.Row.Index - step.Row.Index) > reach / 2) continue;
            if (Math.Max(other.From.Number, other.To.Number) + 1 < left || Math.Min(other.From.Number, other.To.Number) - 1 > right) continue;
            foreach (var ((stitch, shape), name) in StepMoves.Shapes(order, other).Zip(StitchName.Of(order, other)))
            {
                if (Math.Min(shape.From.Across, shape.To.Across) < left || Math.Max(shape.From.Across, shape.To.Across) > right) continue;
                (worked.Has(name) ? done : ahead).Add(hold.Place(shape, stitch.Level, other.Thread));
            }
        }
        return hold.Scene(StepMoves.Of(order, step), step.Thread, done.ToImmutable(), ahead.ToImmutable());
    }

    // How the chart lies in the hands.
    private sealed class Hold(Work work, bool turned)
    {
        public bool IsBack { get; init; }

        private int Pleats => work.Pleating.Pleats;

        private int Lines => work.CableRows * 2;

        /// <summary>The scene of a passage, one stitch for each move that makes one.</summary>
        public HeldScene Scene(Passage passage, ThreadKey? thread, ImmutableArray<SceneStitch> done, ImmutableArray<SceneStitch> ahead) => new(
            [.. from move in passage.Moves where move.Stitch >= 0 from shape in move.Shows select Place(shape, move.Level!.Value, thread)],
            done, ahead, GatheringRows(), Pleats, Lines, passage.Rightward(IsBack ? ClothSide.Wrong : ClothSide.Right));

        private ImmutableArray<double> GatheringRows() =>
        [
            .. Enumerable.Range(1, work.Piece.Cloth.GatheringRows)
                .Select(g => new GatheringRow(g).CableRow(work.Pleating.Gauge.CableRowsPerSpace).Index * 2 + 1.0).Where(y => y <= Lines).Select(y => turned ? Lines - y : y),
        ];

        /// <summary>A stitch's shape as held. Turned, the piece is seen turned by half a circle; from the back, mirrored.</summary>
        public SceneStitch Place(StitchShape shape, Level level, ThreadKey? thread)
        {
            double left = Math.Min(shape.From.Across, shape.To.Across), right = Math.Max(shape.From.Across, shape.To.Across), line = Math.Round(shape.From.Down - 0.5, 3);
            return new(turned != IsBack ? Pleats - right : left, turned ? Lines - 1 - line : line, (int)Math.Round(right - left), thread, turned ? level.Opposite() : level);
        }
    }
}

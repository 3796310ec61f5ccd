using System.Collections.Immutable;
using Pleatwright.Chart;
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

    /// <summary>The scene of an item of cables or of backsmocking; null for what has a picture of another kind.</summary>
    /// <param name="order">The order.</param>
    /// <param name="item">The item.</param>
    /// <param name="worked">The stitches ticked.</param>
    /// <param name="reach">How many pleats and lines beside a run's own are looked at; what lies further is left out.</param>
    public static HeldScene? Of(WorkingOrder order, WorkItem item, Worked worked, int reach = 30)
    {
        if (item.Step is { } step) return OfRun(order, step, item.Stitches, worked, reach);
        return item.Told.Back is { } back ? OfBack(order, back) : null;
    }

    private static HeldScene OfRun(WorkingOrder order, Step step, ImmutableArray<HeldStitch> stitches, Worked worked, int reach)
    {
        var work = order.Work;
        var hold = new Hold(work, step.Turned);
        var rightward = order.TravelsRight(step);
        var run = ImmutableArray.CreateBuilder<SceneStitch>(stitches.Length);
        var valley = step.From.Number;
        for (var i = 0; i < stitches.Length; i++)
        {
            if (!stitches[i].Half)
            {
                var level = step.Turned ? stitches[i].Held.Opposite() : stitches[i].Held;
                run.Add(hold.Cable(new Valley(valley), step.Row, level, step.Thread));
                valley += rightward ? 1 : -1;
            }
            else
            {
                var (beside, right) = i == 0 ? (step.From, !rightward) : (step.To, rightward);
                var level = i == 0 ? step.Begin : step.End;
                run.Add(hold.Half(beside, step.Row, level, right, step.Thread));
            }
        }
        var (done, ahead) = (ImmutableArray.CreateBuilder<SceneStitch>(), ImmutableArray.CreateBuilder<SceneStitch>());
        var (low, high) = (Math.Min(step.From.Number, step.To.Number), Math.Max(step.From.Number, step.To.Number));
        for (var row = Math.Max(0, step.Row.Index - reach / 2); row <= Math.Min(work.CableRows - 1, step.Row.Index + reach / 2); row++)
        {
            foreach (var other in work.RunsIn(new CableRow(row)))
            {
                for (var v = Math.Max(other.From.Number, low - reach); v <= Math.Min(other.To.Number, high + reach); v++)
                {
                    if (row == step.Row.Index && v >= low && v <= high) continue;
                    var at = new Valley(v);
                    (worked.Has(StitchName.Cable(other.Row, at)) ? done : ahead).Add(hold.Cable(at, other.Row, other.LevelAt(at), other.Thread));
                }
                if (row == step.Row.Index && other.From.Number <= high && other.To.Number >= low) continue;
                if (other.HalfLeft) (worked.Has(StitchName.Half(other.Row, other.From, false)) ? done : ahead).Add(hold.Half(other.From, other.Row, other.LevelAt(other.From), false, other.Thread));
                if (other.HalfRight) (worked.Has(StitchName.Half(other.Row, other.To, true)) ? done : ahead).Add(hold.Half(other.To, other.Row, other.LevelAt(other.To), true, other.Thread));
            }
        }
        return new(run.MoveToImmutable(), done.ToImmutable(), ahead.ToImmutable(), hold.GatheringRows, hold.Pleats, hold.Lines, rightward != step.Turned);
    }

    // From the wrong side left and right change places; the first cable of a row is an up cable as held (common practice, no source).
    private static HeldScene OfBack(WorkingOrder order, BackRow back)
    {
        var work = order.Work;
        var hold = new Hold(work, back.Turned) { IsBack = true };
        var row = back.Row.CableRow(work.Pleating.Gauge.CableRowsPerSpace);
        var rightward = back.End.Number > back.Begin.Number;
        var run = ImmutableArray.CreateBuilder<SceneStitch>(back.Cables);
        for (var i = 0; i < back.Cables; i++)
        {
            var valley = rightward ? back.Begin.Number + i : back.Begin.Number - 1 - i;
            var held = i % 2 == 0 ? Level.Up : Level.Down;
            run.Add(hold.Cable(new Valley(valley), row, back.Turned ? held.Opposite() : held, null));
        }
        var forward = rightward == (hold.IsBack == back.Turned);
        return new(run.MoveToImmutable(), [], [], hold.GatheringRows, hold.Pleats, hold.Lines, forward);
    }

    // How the chart lies in the hands.
    private sealed class Hold(Work work, bool turned)
    {
        public bool IsBack { get; init; }

        public int Pleats { get; } = work.Pleating.Pleats;

        public int Lines { get; } = work.CableRows * 2;

        public ImmutableArray<double> GatheringRows =>
        [
            .. Enumerable.Range(1, work.Piece.Cloth.GatheringRows)
                .Select(g => new GatheringRow(g).CableRow(work.Pleating.Gauge.CableRowsPerSpace).Index * 2 + 1.0).Where(y => y <= Lines).Select(y => turned ? Lines - y : y),
        ];

        public SceneStitch Cable(Valley valley, CableRow row, Level level, ThreadKey? thread) => Place(valley.Number - 1, 2, row, level, thread);

        // A half stitch goes over the last pleat again, on the line opposite the end cable.
        public SceneStitch Half(Valley beside, CableRow row, Level level, bool right, ThreadKey? thread) =>
            Place(right ? beside.Number : beside.Number - 1, 1, row, level.Opposite(), thread);

        // Turned, the piece is seen turned by half a circle; from the back, mirrored.
        private SceneStitch Place(int left, int wide, CableRow row, Level level, ThreadKey? thread)
        {
            var line = row.Index * 2 + (level == Level.Down ? 1 : 0);
            var mirrored = turned != IsBack;
            return new(mirrored ? Pleats - left - wide : left, turned ? Lines - 1 - line : line, wide, thread, turned ? level.Opposite() : level);
        }
    }
}

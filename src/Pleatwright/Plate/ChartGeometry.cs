using Pleatwright.Chart;
using Pleatwright.Thread;

namespace Pleatwright.Plate;

/// <summary>What a brick on the chart stands for.</summary>
internal enum BrickKind
{
    /// <summary>A cable, two pleats wide.</summary>
    Cable,

    /// <summary>A half stitch at the left end of a run, one pleat wide.</summary>
    HalfLeft,

    /// <summary>A half stitch at the right end of a run, one pleat wide.</summary>
    HalfRight,
}

/// <summary>One stitch as it lies on its line.</summary>
/// <param name="RunIndex">Index in the work's runs of the run it belongs to.</param>
/// <param name="Kind">What it stands for.</param>
/// <param name="Thread">Its thread.</param>
/// <param name="Valley">The cable's valley; of a half stitch, the valley of the end cable it stands beside.</param>
/// <param name="Line">The line it lies on.</param>
/// <param name="Box">Where it lies, in millimetres of the chart.</param>
internal readonly record struct Brick(int RunIndex, BrickKind Kind, ThreadKey Thread, Valley Valley, Line Line, Box Box);

/// <summary>
/// A part of the chart, both ends counted in. Rows above 0 and below the last hold the cloth beyond the outermost cable
/// rows; pleats below 1 and above the last are seam pleats.
/// </summary>
/// <param name="FirstPleat">Leftmost pleat.</param>
/// <param name="LastPleat">Rightmost pleat.</param>
/// <param name="FirstRow">Topmost cable row.</param>
/// <param name="LastRow">Lowest cable row.</param>
internal readonly record struct ChartWindow(int FirstPleat, int LastPleat, int FirstRow, int LastRow)
{
    /// <summary>Pleats across.</summary>
    public int Pleats => LastPleat - FirstPleat + 1;

    /// <summary>Cable rows down.</summary>
    public int Rows => LastRow - FirstRow + 1;
}

/// <summary>
/// Where everything lies on a chart, in millimetres: the left edge of pleat 1 is at 0 across, the upper edge of cable
/// row 0 at 0 down. The chart is a straight lattice whatever the form of the cloth. Pure arithmetic; pages and screens share it.
/// </summary>
internal sealed class ChartGeometry
{
    /// <summary>A chart of a work.</summary>
    /// <param name="work">The work.</param>
    /// <param name="pitch">Millimetres from one pleat to the next on the chart, more than 0.</param>
    /// <param name="lineHeight">Millimetres from one line to the next on the chart, more than 0.</param>
    public ChartGeometry(Work work, double pitch, double lineHeight)
    {
        Work = work;
        Pitch = pitch;
        LineHeight = lineHeight;
    }

    /// <summary>The work charted.</summary>
    public Work Work { get; }

    /// <summary>Millimetres from one pleat to the next.</summary>
    public double Pitch { get; }

    /// <summary>Millimetres from one line to the next.</summary>
    public double LineHeight { get; }

    /// <summary>Millimetres from one cable row to the next.</summary>
    public double RowHeight => 2 * LineHeight;

    /// <summary>Cable rows in one space.</summary>
    public int RowsPerSpace => Work.Pleating.Gauge.CableRowsPerSpace;

    /// <summary>A chart so many times the size of the finished work.</summary>
    public static ChartGeometry Scaled(Work work, double times)
    {
        var gauge = work.Pleating.Gauge;
        return new ChartGeometry(work, gauge.Pitch.Millimetres * times, gauge.LineHeight.Millimetres * times);
    }

    /// <summary>All the cloth, seam pleats and holding rows too.</summary>
    public ChartWindow Everything
    {
        get
        {
            var cloth = Work.Pleating.Cloth;
            var margin = Math.Max(1, RowsPerSpace / 2);
            return new ChartWindow(
                1 - cloth.SeamPleats, Work.Pleating.Pleats + cloth.SeamPleats,
                -cloth.HoldingRowsAbove * RowsPerSpace - margin,
                Work.CableRows - 1 + cloth.HoldingRowsBelow * RowsPerSpace + margin);
        }
    }

    /// <summary>The box of a part of the chart.</summary>
    public Box BoxOf(ChartWindow window) =>
        new((window.FirstPleat - 1) * Pitch, window.FirstRow * RowHeight, window.Pleats * Pitch, window.Rows * RowHeight);

    /// <summary>How far across a valley lies; also the right edge of the pleat on its left.</summary>
    public double Across(Valley valley) => valley.Number * Pitch;

    /// <summary>How far across the left edge of a pleat lies.</summary>
    public double LeftOf(Pleat pleat) => (pleat.Number - 1) * Pitch;

    /// <summary>How far down the upper edge of a line lies.</summary>
    public double TopOf(Line line) => line.Index * LineHeight;

    /// <summary>How far down a gathering row lies: through the middle of its cable row, between the two lines.</summary>
    public double Down(GatheringRow row) => Middle(row.CableRow(RowsPerSpace));

    /// <summary>How far down the middle of a cable row lies.</summary>
    public double Middle(CableRow row) => (row.Index + 0.5) * RowHeight;

    /// <summary>How far down a holding row above the first gathering row lies, counted upward from 1.</summary>
    public double HoldingAbove(int row) => (0.5 - (double)row * RowsPerSpace) * RowHeight;

    /// <summary>How far down a holding row below the last gathering row lies, counted downward from 1.</summary>
    public double HoldingBelow(int row) => Down(new GatheringRow(Work.Pleating.Cloth.GatheringRows)) + (double)row * RowsPerSpace * RowHeight;

    /// <summary>The box of a cable: two pleats on the line of its level.</summary>
    public Box CableBox(Valley valley, CableRow row, Level level) =>
        new(LeftOf(valley.LeftPleat), TopOf(Lattice.LineOf(row, level)), 2 * Pitch, LineHeight);

    /// <summary>The box of a half stitch: one pleat on the line opposite the end cable.</summary>
    public Box HalfBox(Valley endValley, CableRow row, Phase phase, RunEnd end) =>
        new(LeftOf(Lattice.HalfStitchPleat(endValley, end)), TopOf(Lattice.HalfStitchLine(endValley, row, phase)), Pitch, LineHeight);

    /// <summary>The bricks of one run from left to right, half stitches at their ends.</summary>
    /// <param name="runIndex">Index in the work's runs.</param>
    public IEnumerable<Brick> Bricks(int runIndex) => Bricks(runIndex, 1, Work.Valleys);

    /// <summary>
    /// The bricks that show in a part of the chart, top row first, from left to right: the order in which to paint them.
    /// </summary>
    public IEnumerable<Brick> Bricks(ChartWindow window)
    {
        var last = Math.Min(window.LastRow, Work.CableRows - 1);
        for (var y = Math.Max(window.FirstRow, 0); y <= last; y++)
        {
            var end = Work.FirstRunIndex(new CableRow(y + 1));
            for (var i = Work.FirstRunIndex(new CableRow(y)); i < end; i++)
            {
                var run = Work.Runs[i];
                if (run.LastPleat.Number < window.FirstPleat) continue;
                if (run.FirstPleat.Number > window.LastPleat) break;
                foreach (var brick in Bricks(i, window.FirstPleat - 1, window.LastPleat)) yield return brick;
            }
        }
    }

    // The bricks of a run whose valleys lie from one valley to another.
    private IEnumerable<Brick> Bricks(int runIndex, int firstValley, int lastValley)
    {
        var run = Work.Runs[runIndex];
        if (run.HalfLeft && run.From.Number >= firstValley && run.From.Number <= lastValley)
            yield return new Brick(runIndex, BrickKind.HalfLeft, run.Thread, run.From,
                Lattice.HalfStitchLine(run.From, run.Row, run.Phase), HalfBox(run.From, run.Row, run.Phase, RunEnd.Left));
        for (var v = Math.Max(run.From.Number, firstValley); v <= Math.Min(run.To.Number, lastValley); v++)
        {
            var valley = new Valley(v);
            var level = run.LevelAt(valley);
            yield return new Brick(runIndex, BrickKind.Cable, run.Thread, valley,
                Lattice.LineOf(run.Row, level), CableBox(valley, run.Row, level));
        }
        if (run.HalfRight && run.To.Number >= firstValley && run.To.Number <= lastValley)
            yield return new Brick(runIndex, BrickKind.HalfRight, run.Thread, run.To,
                Lattice.HalfStitchLine(run.To, run.Row, run.Phase), HalfBox(run.To, run.Row, run.Phase, RunEnd.Right));
    }
}

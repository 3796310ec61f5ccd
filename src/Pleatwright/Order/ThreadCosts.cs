using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Order;

/// <summary>
/// What stitches and carries take, in whole micrometres of thread, so that sums are exact and the same plan comes out
/// everywhere. A stitch is rounded up, what a needleful holds is rounded down.
/// </summary>
internal sealed class ThreadCosts
{
    private readonly int[] cable; // per cable row
    private readonly int[] half;
    private readonly int[] pitch;
    private readonly int rowHeight;
    private readonly Work work;
    private readonly bool splitRuns;

    /// <summary>Works out the costs of every cable row.</summary>
    public ThreadCosts(Work work)
    {
        this.work = work;
        var gauge = work.Pleating.Gauge;
        cable = new int[work.CableRows];
        half = new int[work.CableRows];
        pitch = new int[work.CableRows];
        var dearest = 1;
        for (var y = 0; y < cable.Length; y++)
        {
            var wide = work.Pleating.PitchAt(y);
            pitch[y] = RoundUp(wide);
            cable[y] = RoundUp(work.CableThread(new CableRow(y)));
            half[y] = RoundUp(work.HalfStitchThread(new CableRow(y)));
            dearest = Math.Max(dearest, cable[y] + 2 * half[y]);
        }
        rowHeight = RoundUp(gauge.CableRowHeight);
        var working = work.Piece.Working;
        // However short the needleful, one cable is always worked with it: else the work would never end.
        Needleful = Math.Max(dearest, (int)Math.Min(int.MaxValue / 4, Math.Floor((working.WorkingLength - working.Tails).Millimetres * 1000 + 1e-6)));
        Longer = (int)Math.Min(int.MaxValue / 8, Math.Floor(working.Longer.Millimetres * 1000 + 1e-6));
        splitRuns = working.SplitRuns;
        CarryRows = gauge.CableRowsPerSpace;
        CarryPleats = working.CarryPleats;
    }

    private ThreadCosts(ThreadCosts like, int carryPleats)
    {
        (work, cable, half, pitch, rowHeight, splitRuns) = (like.work, like.cable, like.half, like.pitch, like.rowHeight, like.splitRuns);
        (Needleful, Longer, CarryRows, CarryPleats) = (like.Needleful, like.Longer, like.CarryRows, carryPleats);
    }

    /// <summary>The same, with carries of so many pleats at the most.</summary>
    public ThreadCosts With(int carryPleats) => carryPleats == CarryPleats ? this : new ThreadCosts(this, carryPleats);

    /// <summary>How much more a needleful may hold that ends at the end of a run.</summary>
    public int Longer { get; }

    /// <summary>What one needleful holds between its start and its tie-off.</summary>
    public int Needleful { get; }

    /// <summary>The most cable rows a carry may pass: one space.</summary>
    public int CarryRows { get; }

    /// <summary>The most pleats a carry may pass.</summary>
    public int CarryPleats { get; }

    /// <summary>One cable of a run.</summary>
    public int Cable(int run) => cable[work.Runs[run].Row.Index];

    /// <summary>One half stitch of a run.</summary>
    public int Half(int run) => half[work.Runs[run].Row.Index];

    /// <summary>One cable in a row.</summary>
    public int CableIn(CableRow row) => cable[row.Index];

    /// <summary>One half stitch in a row.</summary>
    public int HalfIn(CableRow row) => half[row.Index];

    /// <summary>Whether a run may be shared among needlefuls.</summary>
    public bool MaySplit(int run) => splitRuns || Run(run) > Needleful + Longer;

    /// <summary>A whole run.</summary>
    public long Run(int run)
    {
        var r = work.Runs[run];
        return (long)r.Cables * cable[r.Row.Index] + (long)r.HalfStitches * half[r.Row.Index];
    }

    /// <summary>A carry: along the pleat, then sideways, floated or cabled across.</summary>
    public int Carry(int pleats, int fromRow, int toRow) =>
        Carries.Floated(pleats) * ((pitch[fromRow] + pitch[toRow] + 1) / 2) + Carries.Cables(pleats) * ((cable[fromRow] + cable[toRow] + 1) / 2) + Math.Abs(toRow - fromRow) * rowHeight;

    private static int RoundUp(Length length) => (int)Math.Ceiling(length.Millimetres * 1000 - 1e-6);
}

using Pleatwright.Chart;

namespace Pleatwright.Stitched;

/// <summary>A piece as it will lie finished: its cloth, and every stitch that shows. Made once, drawn at any scale.</summary>
internal sealed class StitchedPiece
{
    /// <summary>Settles the pleats of a work and lays its stitches.</summary>
    public StitchedPiece(Work work)
    {
        Work = work;
        Field = new PleatField(work);
        Strands = new Strands(Field);
        Stitches = LaidStitch.Of(work);
        whole = new Lazy<Frame>(Seen);
    }

    /// <summary>Other stitches on cloth that is settled.</summary>
    internal StitchedPiece(Work work, PleatField field, LaidStitch[] stitches)
    {
        Work = work;
        Field = field;
        Strands = new Strands(field);
        Stitches = stitches;
        whole = new Lazy<Frame>(Seen);
    }

    /// <summary>The work.</summary>
    public Work Work { get; }

    /// <summary>Its cloth.</summary>
    public PleatField Field { get; }

    /// <summary>How strands are laid on it.</summary>
    public Strands Strands { get; }

    /// <summary>Its stitches; see <see cref="LaidStitch.Of"/>.</summary>
    public ReadOnlyMemory<LaidStitch> Stitches { get; }

    /// <summary>All of the finished cloth that is seen: no seam pleats, but the holding rows.</summary>
    public Frame Whole => whole.Value;

    /// <summary>The same, but nothing of what cloth on arcs lies on beside it.</summary>
    public Frame Bare => !Field.Surface.IsStraight && Field.Surface.Backdrop is null && Field.Surface.View(Field.DepthOf((float)Ends.Top), Field.DepthOf((float)Ends.Bottom)) is var (x, y, width, height)
        ? new Frame(x, y, width, height) : Whole;

    private readonly Lazy<Frame> whole;

    /// <summary>Where the finished cloth begins and ends, in lines: half a space past the holding rows.</summary>
    public (double Top, double Bottom) Ends
    {
        get
        {
            var cloth = Work.Piece.Cloth;
            var rows = Work.Pleating.Gauge.CableRowsPerSpace;
            var margin = Math.Max(1, rows / 2);
            return (-2.0 * (cloth.HoldingRowsAbove * rows + margin), 2.0 * (Work.CableRows + cloth.HoldingRowsBelow * rows + margin));
        }
    }

    private const double Around = 0.05; // of the width, of what a piece lies on that has a shape of its own

    private Frame Seen()
    {
        var (top, bottom) = Ends;
        if (Field.Surface.View(Field.DepthOf((float)top), Field.DepthOf((float)bottom)) is var (x, y, width, height))
            return new Frame(x, y, width, height).Grown(Around * width);
        // At the edges a pleat may lean out, and what is worked on it with it.
        var right = Field.Pleats * Field.Pitch;
        var flat = new Frame(0, top * Field.LineHeight, right, (bottom - top) * Field.LineHeight);
        var lean = Framing.Things(this).Aggregate(flat, (frame, thing) => frame.With(thing.Box));
        return Frame.Of(Math.Max(lean.X, -Field.Pitch), flat.Y, Math.Min(lean.Right, right + Field.Pitch), flat.Bottom);
    }

    /// <summary>Whether a stitch lies where it can be seen: of a ball, in front.</summary>
    public bool IsSeen(in LaidStitch stitch)
    {
        var (first, last) = Field.Surface.Seen(Field.Pleats);
        if (first == 1 && last == Field.Pleats) return true;
        return Math.Min(stitch.Across, stitch.ToAcross) >= first - 1 && Math.Max(stitch.Across, stitch.ToAcross) <= last;
    }
}

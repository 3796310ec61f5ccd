using System.Numerics;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Picture;
using Pleatwright.Thread;

namespace Pleatwright.Stitched;

/// <summary>
/// A few pleats seen close, with what lies on them, painted as a whole piece is: pleats stand where they are told to, and any shape of stitch may lie on them, on either side of the
/// cloth and whichever way it is held. Places across are pleats from the left edge of what is seen, places down are lines from its top.
/// </summary>
internal sealed class CloseUp
{
    private readonly PleatField field;
    private readonly Work work;
    private readonly LaidStitch[] before, after;

    /// <summary>Prepares it.</summary>
    /// <param name="valleys">Where each valley lies, both edges counted in, in millimetres; at least two pleats.</param>
    /// <param name="pitch">Millimetres from valley to valley as gathered.</param>
    /// <param name="line">Height of a line in millimetres.</param>
    /// <param name="lines">Lines down.</param>
    /// <param name="cloth">Its colour.</param>
    /// <param name="threads">Colour, strands and diameter of a strand in millimetres, of each thread.</param>
    /// <param name="before">What lies there first, each with its thread.</param>
    /// <param name="after">What comes to lie there.</param>
    public CloseUp(IReadOnlyList<double> valleys, double pitch, double line, int lines, Colour cloth, IEnumerable<(Colour Colour, int Strands, double Diameter)> threads,
        IEnumerable<(StitchShape Shape, int Thread)> before, IEnumerable<(StitchShape Shape, int Thread)> after)
    {
        const int perSpace = 5;
        // How the cloth lies is told by the valleys; the plan only says how large it is and of what.
        var gauge = new Gauge(Length.FromMillimetres(pitch), Length.FromMillimetres(pitch), Length.FromMillimetres(line * 2 * perSpace), perSpace);
        var pleats = valleys.Count - 1;
        var plan = new ClothPlan(new Panel(gauge.Pitch * (pleats + pleats % 2)), gauge, lines / (2 * perSpace) + 2) { SeamPleats = 0, HoldingRowsAbove = 0, HoldingRowsBelow = 0, Colour = cloth };
        var flosses = threads.Select((t, i) => new Floss(new ThreadKey(Keys[i]), "", t.Colour, t.Strands) { TexPerStrand = TexOf(t.Diameter) });
        work = Work.Lay(new Piece("", plan, [.. flosses], [], []) { Back = Backsmocking.None });
        this.before = Laid(before);
        this.after = [.. this.before, .. Laid(after)];
        field = new PleatField(work, valleys, this.after);
    }

    private const string Keys = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";

    /// <summary>The most threads there may be.</summary>
    public static int MostThreads => Keys.Length;

    // The fineness of a strand as thick (Fineness.Diameter the other way round).
    private static double TexOf(double diameter) => Math.Clamp(Fineness.TexTimesCottonCount * Math.Pow(28 * Length.FromMillimetres(diameter).Inches, 2), Floss.LeastTex, Floss.MostTex);

    private static LaidStitch[] Laid(IEnumerable<(StitchShape Shape, int Thread)> shapes)
    {
        var laid = new List<LaidStitch>();
        foreach (var (shape, thread) in shapes) LaidStitch.Add(laid, shape, (byte)thread, shape.Kind == ShapeKind.Bar ? 0 : 2);
        return [.. laid];
    }

    /// <summary>Paints it.</summary>
    /// <param name="left">Where the picture begins, in millimetres from the first valley.</param>
    /// <param name="top">Where it begins down.</param>
    /// <param name="width">Its width in millimetres.</param>
    /// <param name="height">Its height.</param>
    /// <param name="wide">Pixels across.</param>
    /// <param name="whole">Whether what comes to lie there lies there; else what lies there first alone.</param>
    /// <param name="quarterTurn">Whether it will be seen a quarter turn to the left, so that the lamp stands at the upper left then.</param>
    /// <param name="samples">Samples to a millimetre, at least.</param>
    /// <param name="cancel">Stops it.</param>
    public Raster Paint(double left, double top, double width, double height, int wide, bool whole, bool quarterTurn, float samples = Painter.LeastSamples, CancellationToken cancel = default) =>
        PainterOf(left, top, width, height, wide, whole, quarterTurn, samples).Paint(cancel);

    /// <summary>The same, to be painted band by band.</summary>
    public Painter PainterOf(double left, double top, double width, double height, int wide, bool whole, bool quarterTurn, float samples)
    {
        var light = Light.UpperLeft;
        if (quarterTurn) light = light with { Toward = new Vector3(-light.Toward.Y, light.Toward.X, light.Toward.Z) };
        return new Painter(new StitchedPiece(work, field, whole ? after : before), new Frame(left, top, width, height), wide, light, samples, even: true);
    }
}

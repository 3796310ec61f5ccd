using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Cloth;
using Pleatwright.Plate.Parts;

namespace Pleatwright.Plate.Preparation;

/// <summary>
/// The dots to gather by, as they lie on the wrong side of the flat cloth, which is the side they are put on (common practice, no source): two to a pleat, a row of
/// them for every gathering and holding row. Pleats are numbered as on the right side, so from the right here.
/// Nothing is at an edge of a page but the middle of a valley, so that pages join dot on dot.
/// </summary>
internal sealed class DotDrawing : TrueDrawing
{
    private readonly PleatingPlan plan;
    private readonly double takeUp;
    private readonly double spacing;
    private readonly double margin;
    private readonly double cutRight;

    public DotDrawing(PleatingPlan plan)
    {
        this.plan = plan;
        takeUp = plan.Gauge.TakeUp.Millimetres;
        spacing = plan.Gauge.RowSpacing.Millimetres;
        margin = (plan.Cloth.Selvedges / 2 + plan.Cloth.Ravelling).Millimetres;
        var joined = plan.CutWidth - plan.Cloth.Form.LostInJoins(plan.Cloth);
        cutRight = joined.Millimetres - margin;
    }

    /// <summary>Where the flat cloth begins and ends, seen from its right side; the first gathered pleat begins at 0.</summary>
    public (double Left, double Right) CutEdges => (-margin, cutRight);

    /// <inheritdoc/>
    /// <remarks>The last gathered pleat begins at 0, for this is the wrong side; whole pleats are added where the cloth goes on beyond the pleats.</remarks>
    public override Box Extent
    {
        get
        {
            var left = Math.Floor(Wrong(cutRight) / takeUp + 1e-9) * takeUp;
            var right = Math.Ceiling(Wrong(-margin) / takeUp - 1e-9) * takeUp;
            return new Box(left, -spacing / 2, right - left, plan.RowsToGather * spacing);
        }
    }

    /// <inheritdoc/>
    public override Spot Step => new(takeUp, spacing);

    /// <inheritdoc/>
    public override Spot Overlap => new(takeUp, spacing);

    /// <inheritdoc/>
    public override ImmutableArray<Mark> Draw(Box part, Look look)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        foreach (var (x, _, pen) in Guides(look))
            if (x >= part.X - 2 && x <= part.Right + 2) marks.Add(new Shape(Outline.Line(x, part.Y, x, part.Bottom), null, pen));
        Dots(part, look, marks);
        return marks.ToImmutable();
    }

    /// <inheritdoc/>
    public override ImmutableArray<Mark> Label(Box part, Look look)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        Names(part, look, marks);
        var cap = Typeface.CapHeight(Lettered(look));
        for (var row = FirstRow(part); row <= LastRow(part); row++)
        {
            var y = row * spacing + cap / 2;
            var number = row - plan.Cloth.HoldingRowsAbove + 1;
            var holding = number < 1 || number > plan.Cloth.GatheringRows;
            var words = holding ? "hold" : number.ToString(CultureInfo.InvariantCulture);
            var style = Lettered(look) with { Colour = holding ? look.Quiet : look.Accent };
            marks.Add(new Lettering(new Spot(part.X - 1.5, y), words, style, Anchor.End));
            marks.Add(new Lettering(new Spot(part.Right + 1.5, y), words, style));
        }
        for (var pleat = FirstPleat(part); pleat <= LastPleat(part); pleat++)
        {
            var finished = plan.PleatsToGather - pleat - plan.Cloth.SeamPleats;
            if (finished < 1 || finished > plan.Pleats || (finished % 10 != 0 && finished != 1)) continue;
            var x = (pleat + 0.5) * takeUp;
            marks.Add(new Lettering(new Spot(x, part.Y - 1.5), finished.ToString(CultureInfo.InvariantCulture), Lettered(look), Anchor.Middle));
        }
        return marks.ToImmutable();
    }

    // Never smaller than can be read at a table.
    private static TypeStyle Lettered(Look look) => look.Ruler with { Points = Math.Max(8, look.Ruler.Points) };

    // Where a place of the right side lies on the wrong side.
    private double Wrong(double across) => plan.PleatsToGather * takeUp - across;

    private int FirstRow(Box part) => Math.Max(0, (int)Math.Ceiling(part.Y / spacing - 1e-9));

    private int LastRow(Box part) => Math.Min(plan.RowsToGather - 1, (int)Math.Floor(part.Bottom / spacing + 1e-9));

    private int FirstPleat(Box part) => Math.Max(0, (int)Math.Floor(part.X / takeUp + 1e-9));

    private int LastPleat(Box part) => Math.Min(plan.PleatsToGather - 1, (int)Math.Ceiling(part.Right / takeUp - 1e-9) - 1);

    private void Dots(Box part, Look look, ImmutableArray<Mark>.Builder marks)
    {
        var radius = Math.Min(look.Large ? 0.7 : 0.5, takeUp / 8);
        OutlineBuilder gathering = new(), holding = new();
        for (var row = FirstRow(part); row <= LastRow(part); row++)
        {
            var number = row - plan.Cloth.HoldingRowsAbove;
            var into = number >= 0 && number < plan.Cloth.GatheringRows ? gathering : holding;
            for (var dot = 2 * FirstPleat(part); dot <= 2 * LastPleat(part) + 1; dot++)
                into.Circle(new Spot((dot + 0.5) * takeUp / 2, row * spacing), radius);
        }
        if (!gathering.IsEmpty) marks.Add(new Shape(gathering.Build(), look.Ink));
        if (!holding.IsEmpty) marks.Add(new Shape(holding.Build(), null, new Pen(look.Ink, 0.2)));
    }

    private IEnumerable<(double X, string Words, Pen Pen)> Guides(Look look)
    {
        var seam = plan.Cloth.SeamPleats;
        yield return (Wrong(-margin), "cut edge", new Pen(look.Ink, 0.35));
        if (seam > 0) yield return (Wrong(seam * takeUp), "first finished pleat", new Pen(look.Quiet, 0.2) { Dashes = (1, 1) });
        foreach (var join in plan.Joins)
            yield return (Wrong((join.Valley + seam) * takeUp), $"join of {Tidy.Line(join.Between)}", new Pen(look.Ink, 0.25) { Dashes = (3, 1) });
        yield return (Wrong((plan.CentreValley + seam) * takeUp), "centre", new Pen(look.Accent, 0.3) { Dashes = (4, 1.2) });
        if (seam > 0) yield return (Wrong((seam + plan.Pleats) * takeUp), "last finished pleat", new Pen(look.Quiet, 0.2) { Dashes = (1, 1) });
        yield return (Wrong(cutRight), "cut edge", new Pen(look.Ink, 0.35));
    }

    // Below the dots, each under its line; one that would run into its neighbour stands a line lower.
    private void Names(Box part, Look look, ImmutableArray<Mark>.Builder marks)
    {
        var cap = Typeface.CapHeight(Lettered(look));
        Span<double> taken = [double.NegativeInfinity, double.NegativeInfinity];
        foreach (var (x, words, pen) in Guides(look).Where(g => g.X >= part.X - 0.01 && g.X <= part.Right + 0.01).OrderBy(g => g.X))
        {
            var style = Lettered(look) with { Colour = pen.Colour };
            var text = Wrapping.Shorten(words, style, 60);
            var half = Typeface.Width(text, style) / 2;
            var middle = half + 1 > part.Width / 2 ? part.Centre.X : Math.Clamp(x, part.X + half + 1, part.Right - half - 1);
            var line = middle - half > taken[0] + 1 ? 0 : 1;
            taken[line] = middle + half;
            marks.Add(new Lettering(new Spot(middle, part.Bottom + 1 + cap + line * (cap + 0.8)), text, style, Anchor.Middle));
        }
    }
}

using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Order;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>The working order on paper: a box to tick and a number before each step, level checks that stand out.</summary>
internal static class DirectionsPart
{
    /// <summary>The heading of its pages.</summary>
    public const string Heading = "Directions";

    /// <summary>What stands beside the heading.</summary>
    public static string Lead(Edition edition) => edition == Edition.Learner ? "step by step" : "a line a run";

    public static void Lay(PlateDocument document, Flow flow)
    {
        if (document.Options.Edition == Edition.Plate)
        {
            TablePart.Lay(document.Table, flow);
            return;
        }
        var look = flow.Look;
        // Room for the box and for the longest step number.
        var last = document.Directions.Max(d => d.Step?.Number ?? 0).ToString(CultureInfo.InvariantCulture);
        var indent = look.Leading * 0.62 + Typeface.Width(last, look.Strong) + 3.2;
        foreach (var (i, paragraph) in document.Directions.Index())
        {
            var keep = ClosingHeight(document.Directions, i + 1, flow, indent);
            switch (paragraph.Kind)
            {
                case DirectionKind.Heading:
                    flow.Subheading(paragraph.Text, bookmark: true, keep: 9);
                    break;
                case DirectionKind.Step:
                    Step(flow, paragraph, indent, keep);
                    break;
                case DirectionKind.LevelCheck:
                    LevelCheck(flow, paragraph.Text, indent, keep);
                    break;
                default:
                    flow.Paragraph(paragraph.Text, Remark(look), after: AfterRemark, keep: keep);
                    break;
            }
        }
    }

    private const double AfterStep = 1.4;
    private const double AfterRemark = 1.4;

    private static TypeStyle Remark(Look look) => look.Body with { Face = Face.TextItalic, Colour = look.Quiet };

    private static TypeStyle Check(Look look) => look.Body with { Face = Face.TextItalic, Colour = look.Accent };

    // What closes a step stays in its column: its level check, and a short remark such as the count of a row in parts.
    private static double ClosingHeight(ImmutableArray<Direction> directions, int from, Flow flow, double indent)
    {
        const int shortest = 2;
        double height = 0;
        for (var i = from; i < directions.Length; i++)
        {
            int lines;
            switch (directions[i].Kind)
            {
                case DirectionKind.LevelCheck:
                    lines = Wrapping.Lines(directions[i].Text, Check(flow.Look), flow.Width - indent).Count;
                    break;
                case DirectionKind.Remark when Wrapping.Lines(directions[i].Text, Remark(flow.Look), flow.Width) is { Count: <= shortest } remark:
                    lines = remark.Count;
                    break;
                default:
                    return height;
            }
            height += lines * flow.Look.Leading + AfterStep;
        }
        return height;
    }

    private static void Step(Flow flow, Direction step, double indent, double keep)
    {
        var look = flow.Look;
        var box = look.Leading * 0.62;
        var number = step.Step?.Number.ToString(CultureInfo.InvariantCulture) ?? "";
        var lines = Wrapping.Lines(step.Text, look.Body, flow.Width - indent);
        flow.Add(lines.Count * look.Leading + AfterStep, (page, x, y) =>
        {
            page.Put(new Shape(Outline.Rounded(new Box(x, y + look.Leading * 0.16, box, box), 0.4), null, new Pen(look.Quiet, look.Large ? 0.35 : 0.2)));
            page.Text(x + indent - 2, y + look.Leading * 0.75, number, look.Strong, Anchor.End);
            for (var i = 0; i < lines.Count; i++) page.Text(x + indent, y + look.Leading * (i + 0.75), lines[i], look.Body);
        }, keep);
    }

    private static void LevelCheck(Flow flow, string words, double indent, double keep)
    {
        var look = flow.Look;
        var style = Check(look);
        var lines = Wrapping.Lines(words, style, flow.Width - indent);
        flow.Add(lines.Count * look.Leading + AfterStep, (page, x, y) =>
        {
            // A spirit level: a line with a bubble.
            var middle = y + look.Leading * 0.47;
            page.Put(new Shape(Outline.Line(x, middle, x + indent - 2, middle), null, new Pen(look.Accent, look.Large ? 0.5 : 0.3)));
            page.Put(new Shape(Outline.Circle(new Spot(x + (indent - 2) / 2, middle), look.Leading * 0.2), Colour.White, new Pen(look.Accent, look.Large ? 0.5 : 0.3)));
            for (var i = 0; i < lines.Count; i++) page.Text(x + indent, y + look.Leading * (i + 0.75), lines[i], style);
        }, keep);
    }
}

using Pleatwright.Plate.Sections;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>Steps in sentences on paper: a box to tick and a number before each, level checks that stand out.</summary>
internal static class DirectionsPart
{
    /// <summary>The heading of its pages.</summary>
    public const string Heading = "Directions";

    private const double AfterStep = 1.4;

    /// <summary>What closes a step stays in its column: its level check, and a short remark such as the count of a row in parts.</summary>
    public static double ClosingHeight(IReadOnlyList<Item> items, int from, Flow flow)
    {
        const int shortest = 2;
        double height = 0;
        var indent = 0.0;
        for (var i = from - 1; i >= 0 && indent == 0; i--)
            if (items[i] is Step step) indent = Indent(step, flow.Look);
        for (var i = from; i < items.Count; i++)
        {
            if (items[i] is not Words words) break;
            var style = Typesetting.Style(words.Tone, flow.Look);
            var lines = Wrapping.Lines(words.Text, style, flow.Width - (words.Tone == Tone.Check ? indent : 0)).Count;
            if (words.Tone == Tone.Plain || (words.Tone == Tone.Remark && lines > shortest)) break;
            height += lines * flow.Look.Leading + AfterStep;
        }
        return height;
    }

    public static void Lay(Step step, Flow flow, double keep)
    {
        var look = flow.Look;
        var box = look.Leading * 0.62;
        var indent = Indent(step, look);
        var lines = Wrapping.Lines(step.Text, look.Body, flow.Width - indent);
        flow.Add(lines.Count * look.Leading + AfterStep, (page, x, y) =>
        {
            page.Put(new Shape(Outline.Rounded(new Box(x, y + look.Leading * 0.16, box, box), 0.4), null, new Pen(look.Quiet, look.Large ? 0.35 : 0.2)));
            page.Text(x + indent - 2, y + look.Leading * 0.75, step.Number, look.Strong, Anchor.End);
            for (var i = 0; i < lines.Count; i++) page.Text(x + indent, y + look.Leading * (i + 0.75), lines[i], look.Body);
        }, keep);
    }

    public static void LevelCheck(string words, Flow flow, double keep)
    {
        var look = flow.Look;
        var style = Typesetting.Style(Tone.Check, look);
        var indent = look.Leading * 1.8;
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

    // Room for the box and for the longest step number.
    private static double Indent(Step step, Look look) => look.Leading * 0.62 + Typeface.Width(step.Last, look.Strong) + 3.2;
}

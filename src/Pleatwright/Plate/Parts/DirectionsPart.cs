using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>Steps in sentences on paper: a box to tick and a number before each, level checks that stand out.</summary>
internal static class DirectionsPart
{
    /// <summary>The heading of its pages.</summary>
    public const string Heading = "Directions";

    /// <summary>The gap after a step, in millimetres.</summary>
    public const double AfterStep = 1.4;

    /// <summary>Sets a step.</summary>
    /// <param name="number">Its number.</param>
    /// <param name="text">What is done.</param>
    /// <param name="last">The longest number among the steps.</param>
    /// <param name="flow">Where it is set.</param>
    /// <param name="keep">Millimetres of what follows that must stay with it.</param>
    public static void Lay(string number, string text, string last, Flow flow, double keep)
    {
        var look = flow.Look;
        var box = look.Leading * 0.62;
        var indent = Indent(last, look);
        var lines = Wrapping.Lines(text, look.Body, flow.Width - indent);
        flow.Add(lines.Count * look.Leading + AfterStep, (page, x, y) =>
        {
            page.Put(new Shape(Outline.Rounded(new Box(x, y + look.Leading * 0.16, box, box), 0.4), null, new Pen(look.Quiet, look.Large ? 0.35 : 0.2)));
            page.Text(x + indent - 2, y + look.Leading * 0.75, number, look.Strong, Anchor.End);
            for (var i = 0; i < lines.Count; i++) page.Text(x + indent, y + look.Leading * (i + 0.75), lines[i], look.Body);
        }, keep);
    }

    /// <summary>Sets a level check, in the type given.</summary>
    public static void LevelCheck(string words, TypeStyle style, Flow flow, double keep)
    {
        var look = flow.Look;
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

    /// <summary>Room for the box and for the longest step number.</summary>
    public static double Indent(string last, Look look) => look.Leading * 0.62 + Typeface.Width(last, look.Strong) + 3.2;
}

using Pleatwright.Order;

namespace Pleatwright.Plate.Parts;

/// <summary>The working order on paper: a box to tick before each step, level checks that stand out.</summary>
internal static class DirectionsPart
{
    public static void Lay(PlateDocument document, Flow flow)
    {
        var look = flow.Look;
        foreach (var paragraph in document.Directions)
            switch (paragraph.Kind)
            {
                case DirectionKind.Heading:
                    flow.Subheading(paragraph.Text, bookmark: true);
                    break;
                case DirectionKind.Step:
                    Step(flow, paragraph.Text);
                    break;
                case DirectionKind.LevelCheck:
                    LevelCheck(flow, paragraph.Text);
                    break;
                default:
                    flow.Paragraph(paragraph.Text, look.Body with { Face = Face.TextItalic, Colour = look.Quiet }, after: 1.4);
                    break;
            }
    }

    private static void Step(Flow flow, string words)
    {
        var look = flow.Look;
        var box = look.Leading * 0.62;
        var indent = box + 2.2;
        var lines = Wrapping.Lines(words, look.Body, flow.Width - indent);
        flow.Add(lines.Count * look.Leading + 1, (page, x, y) =>
        {
            page.Put(new Shape(Outline.Rounded(new Box(x, y + look.Leading * 0.16, box, box), 0.4), null, new Pen(look.Quiet, look.Large ? 0.35 : 0.2)));
            for (var i = 0; i < lines.Count; i++) page.Text(x + indent, y + look.Leading * (i + 0.75), lines[i], look.Body);
        });
    }

    private static void LevelCheck(Flow flow, string words)
    {
        var look = flow.Look;
        var indent = look.Leading * 0.62 + 2.2;
        var style = look.Body with { Face = Face.TextItalic, Colour = look.Accent };
        var lines = Wrapping.Lines(words, style, flow.Width - indent);
        var height = lines.Count * look.Leading;
        flow.Add(height + 1.2, (page, x, y) =>
        {
            var middle = y + look.Leading * 0.47;
            page.Put(new Shape(Outline.Line(x, middle, x + indent - 2.2, middle), null, new Pen(look.Accent, look.Large ? 0.6 : 0.4)));
            for (var i = 0; i < lines.Count; i++) page.Text(x + indent, y + look.Leading * (i + 0.75), lines[i], style);
        });
    }
}

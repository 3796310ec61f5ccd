using Pleatwright.Plate.Parts;
using Pleatwright.Plate.Sections;

namespace Pleatwright.Plate;

/// <summary>How each kind of item is set on paper.</summary>
internal static class Typesetting
{
    /// <summary>Sets one of the items of a section.</summary>
    /// <param name="items">The items.</param>
    /// <param name="at">Which of them.</param>
    /// <param name="flow">Where it is set.</param>
    public static void Lay(IReadOnlyList<Item> items, int at, Flow flow)
    {
        switch (items[at])
        {
            case Headed headed: flow.Subheading(headed.Words, bookmark: true, keep: Math.Max(headed.Lines, at + 1 < items.Count && items[at + 1] is Words first ? flow.Unbroken(first.Text, Style(first.Tone, flow.Look)) : at + 1 < items.Count && items[at + 1] is Labelled labels ? flow.Unbroken(labels.Lines[0].Words, flow.Look.Body) + 1 : 0)); break;
            case Words words: Paragraph(words, flow, ClosingHeight(items, at + 1, flow)); break;
            case Labelled labelled: MaterialsPart.Lay(labelled.Lines, flow); break;
            case KeyThread thread: KeyPart.Lay(thread.Thread, thread.Words, flow); break;
            case KeySign sign: KeyPart.Lay(sign.Sign, flow); break;
            case StitchShown shown: Stitch(shown.Stitch, flow); break;
            case Lines lines:
                if (at > 0 && items[at - 1] is Lines) flow.Gap(flow.Look.Leading * 0.4); // two tables, the second without a heading
                TablePart.Lay(lines.Block, lines.Alike, flow); break;
            case Step step: DirectionsPart.Lay(step.Number, step.Text, step.Last, flow, ClosingHeight(items, at + 1, flow)); break;
            case Framed framed: CautionsPart.Lay(framed.Heading, framed.Text, flow); break;
            default: throw new ArgumentException($"{items[at].GetType().Name} is not running matter.", nameof(items));
        }
    }

    /// <summary>The type of a paragraph.</summary>
    public static TypeStyle Style(Tone tone, Look look) => tone switch
    {
        Tone.Check => look.Body with { Face = Face.TextItalic, Colour = look.Accent },
        _ => look.Body,
    };

    // What closes a step stays in its column: its level check, and a short remark such as the count of a row in parts.
    private static double ClosingHeight(IReadOnlyList<Item> items, int from, Flow flow)
    {
        const int shortest = 2;
        double height = 0;
        var indent = 0.0;
        for (var i = from - 1; i >= 0 && indent == 0; i--)
            if (items[i] is Step step) indent = DirectionsPart.Indent(step.Last, flow.Look);
        for (var i = from; i < items.Count; i++)
        {
            if (items[i] is not Words words) break;
            var style = Style(words.Tone, flow.Look);
            var lines = Wrapping.Lines(words.Text, style, flow.Width - (words.Tone == Tone.Check ? indent : 0)).Count;
            if (words.Tone == Tone.Plain || (words.Tone == Tone.Remark && lines > shortest)) break;
            height += lines * flow.Look.Leading + DirectionsPart.AfterStep;
        }
        return height;
    }

    private static void Stitch(DrawnStitch stitch, Flow flow)
    {
        var look = flow.Look;
        var style = look.Large ? look.Body : look.Note with { Colour = look.Ink };
        var leading = look.Leading * style.Points / look.Body.Points;
        var lines = Wrapping.Lines(stitch.Words, style, flow.Width);
        var view = stitch.Drawing.View;
        flow.Add(look.Leading + view.Height + 1 + lines.Count * leading + 2.5, (page, x, y) =>
        {
            page.Text(x, y + look.Leading * 0.75, stitch.Name, look.Strong);
            page.Figure(FigureWords.Stitch(stitch.Name), new Inset(stitch.Drawing.Marks, new Spot(x - view.X, y + look.Leading - view.Y)));
            using var _ = page.As(new Tag(Role.Paragraph));
            for (var i = 0; i < lines.Count; i++) page.Text(x, y + look.Leading + view.Height + 1 + leading * (i + 0.75), lines[i], style);
        });
    }

    private static void Paragraph(Words words, Flow flow, double keep)
    {
        if (words.Tone == Tone.Check) DirectionsPart.LevelCheck(words.Text, Style(words.Tone, flow.Look), flow, keep);
        else flow.Paragraph(words.Text, Style(words.Tone, flow.Look), after: 1.4, keep: keep);
    }
}

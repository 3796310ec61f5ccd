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
            case Headed headed: flow.Subheading(headed.Words, bookmark: true, keep: headed.Lines); break;
            case Words words: Paragraph(words, flow, DirectionsPart.ClosingHeight(items, at + 1, flow)); break;
            case Labelled labelled: MaterialsPart.Lay(labelled.Lines, flow); break;
            case KeyThread thread: KeyPart.Lay(thread, flow); break;
            case KeySign sign: KeyPart.Lay(sign.Sign, flow); break;
            case Lines lines: TablePart.Lay(lines, flow); break;
            case Step step: DirectionsPart.Lay(step, flow, DirectionsPart.ClosingHeight(items, at + 1, flow)); break;
            case Framed framed: CautionsPart.Lay(framed, flow); break;
            default: throw new ArgumentException($"{items[at].GetType().Name} is not running matter.", nameof(items));
        }
    }

    /// <summary>The type of a paragraph.</summary>
    public static TypeStyle Style(Tone tone, Look look) => tone switch
    {
        Tone.Remark => look.Body with { Face = Face.TextItalic, Colour = look.Quiet },
        Tone.Check => look.Body with { Face = Face.TextItalic, Colour = look.Accent },
        _ => look.Body,
    };

    private static void Paragraph(Words words, Flow flow, double keep)
    {
        if (words.Tone == Tone.Check) DirectionsPart.LevelCheck(words.Text, flow, keep);
        else flow.Paragraph(words.Text, Style(words.Tone, flow.Look), after: 1.4, keep: keep);
    }
}

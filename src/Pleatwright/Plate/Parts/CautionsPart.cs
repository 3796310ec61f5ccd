namespace Pleatwright.Plate.Parts;

/// <summary>The short box of cautions.</summary>
internal static class CautionsPart
{
    public const string Heading = "Take care";

    public const string Words =
        "Count needles and pins out, and count them back in. On clothes for babies, beads, buttons, ribbons and loose ties can choke " +
        "or strangle: leave them off or sew them fast. Sleepwear has to meet the flammability rules of the place it is sold or worn in. " +
        "Steam and hot starch burn. Follow your local rules.";

    public static void Lay(Flow flow)
    {
        var look = flow.Look;
        const double pad = 4;
        const double gap = 5;
        // Rather in smaller type than on a page of its own.
        var style = Height(look.Body) + gap <= flow.Left || look.Large ? look.Body : look.Note with { Colour = look.Ink };
        var lines = Wrapping.Lines(Words, style, flow.Width - 2 * pad);
        var leading = Leading(style);
        var heading = Typeface.CapHeight(look.Subheading);
        var height = Height(style);
        flow.Gap(gap);
        flow.Add(height, (page, x, y) =>
        {
            page.Put(new Shape(Outline.Rounded(new Box(x, y, flow.Width, height), 1.5), null, new Pen(look.Alarm, look.Large ? 0.5 : 0.3)));
            page.Text(x + pad, y + pad + heading, Heading, look.Subheading with { Colour = look.Alarm });
            for (var i = 0; i < lines.Count; i++)
                page.Text(x + pad, y + pad + heading + 0.6 + (i + 1) * leading, lines[i], style);
        });
        flow.Gap(gap);

        double Leading(TypeStyle type) => look.Leading * type.Points / look.Body.Points;

        double Height(TypeStyle type) =>
            2 * pad + Typeface.CapHeight(look.Subheading) + 1 + Wrapping.Lines(Words, type, flow.Width - 2 * pad).Count * Leading(type);
    }
}

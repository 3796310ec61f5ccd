namespace Pleatwright.Plate.Parts;

/// <summary>The short box of cautions.</summary>
internal static class CautionsPart
{
    public const string Heading = "Take care";

    public const string Words =
        "Count needles and pins out, and count them back in. On clothes for babies, beads, buttons, ribbons and loose ties can choke " +
        "or strangle: leave them off or sew them fast. Sleepwear has to meet the flammability rules of the place it is sold or worn in. " +
        "Steam and hot starch burn. Follow your local rules.";

    /// <summary>Sets the cautions.</summary>
    public static void Lay(Flow flow)
    {
        flow.Gap(4);
        Lay(Heading, Words, flow);
    }

    /// <summary>Sets words in a frame.</summary>
    public static void Lay(string heading, string text, Flow flow)
    {
        var look = flow.Look;
        var pad = 3.5 * look.Tight * look.Tight;
        var style = look.Large ? look.Body : look.Note with { Colour = look.Ink };
        var lines = Wrapping.Lines(text, style, flow.Width - 2 * pad);
        var leading = look.Leading * style.Points / look.Body.Points;
        var cap = Typeface.CapHeight(look.Subheading);
        var height = 2 * pad + cap + 1 + lines.Count * leading;
        flow.Add(height, (page, x, y) =>
        {
            page.Put(new Shape(Outline.Rounded(new Box(x, y, flow.Width, height), 1.5), null, new Pen(look.Alarm, look.Large ? 0.5 : 0.3)));
            page.Text(new Tag(Role.Heading), x + pad, y + pad + cap, heading, look.Subheading with { Colour = look.Alarm });
            for (var i = 0; i < lines.Count; i++) page.Text(x + pad, y + pad + cap + 0.6 + (i + 1) * leading, lines[i], style);
        });
    }
}

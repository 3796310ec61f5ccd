using Pleatwright.Measure;

namespace Pleatwright.Plate.Parts;

/// <summary>A line of known length at the foot of a page at true size, by which the printing is checked.</summary>
internal static class CheckLine
{
    // Room at the foot of the page, in millimetres.
    public static double Height(Look look) => look.Large ? 20 : 14;

    public static void Draw(Page page, UnitSystem units)
    {
        var look = page.Look;
        var inner = page.Inner;
        var cap = Typeface.CapHeight(look.Note);
        var y = inner.Bottom - cap - 4.5;
        var right = inner.X;
        if (units != UnitSystem.Inches) Line(100, 10, "10 cm", above: true);
        if (units != UnitSystem.Metric) Line(4 * Length.MillimetresPerInch, Length.MillimetresPerInch, "4 in", above: units == UnitSystem.Inches);
        var words = Wrapping.Lines("Measure this line. If it is out, print again at 100 %.", look.Note, Math.Min(50, inner.Right - right - 30));
        for (var i = 0; i < words.Count; i++) page.Text(right + 8, y + (i - (words.Count - 1) / 2.0) * look.Note.Points * 0.45 + cap / 2, words[i], look.Note);

        void Line(double length, double every, string name, bool above)
        {
            var side = above ? -1 : 1;
            var at = above ? y : y + 0.5;
            var ticks = new OutlineBuilder().Line(inner.X, at, inner.X + length, at);
            for (var i = 0; i * every <= length + 1e-6; i++)
                ticks.Line(inner.X + i * every, at, inner.X + i * every, at + side * (i == 0 || (i + 1) * every > length + 1e-6 ? 2.4 : 1.2));
            page.Put(new Shape(ticks.Build(), null, new Pen(look.Ink, 0.25)));
            page.Text(inner.X + length / 2, above ? at - 2 : at + 2 + cap, name, look.Note, Anchor.Middle);
            right = Math.Max(right, inner.X + length);
        }
    }
}

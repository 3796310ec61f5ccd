using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Pleatwright.Plate.Writers;

/// <summary>The inside of an SVG drawing: elements, and the classes of lettering they use.</summary>
internal sealed class SvgBody(string id)
{
    private readonly StringBuilder text = new();
    private readonly Dictionary<TypeStyle, int> styles = [];
    private int clips;

    public IEnumerable<Face> Faces => styles.Keys.Select(s => s.Face).Distinct().Order();

    public SvgBody Raw(string markup)
    {
        text.Append(markup);
        return this;
    }

    public SvgBody Text(string words)
    {
        text.Append(Escaping.Xml(words));
        return this;
    }

    public void Draw(ImmutableArray<Mark> marks)
    {
        foreach (var mark in marks)
            switch (mark)
            {
                case Shape shape: Draw(shape); break;
                case Lettering lettering: Draw(lettering); break;
                case Inset inset: Draw(inset); break;
                case PixelPicture picture: Draw(picture); break;
            }
    }

    /// <summary>The style rules of the lettering drawn so far.</summary>
    public string Styles()
    {
        var rules = new StringBuilder();
        foreach (var (style, number) in styles)
            rules.Append(CultureInfo.InvariantCulture,
                $".{id}{number}{{font:{Fonts.Shorthand(style.Face, Number(style.Points * Typeface.MillimetresPerPoint) + "px")};fill:{style.Colour}}}\n");
        return rules.ToString();
    }

    public static string Number(double value) => Math.Round(value, 3).ToString("0.###", CultureInfo.InvariantCulture) switch
    {
        "-0" => "0",
        var number => number,
    };

    public override string ToString() => text.ToString();

    private void Draw(Inset inset)
    {
        if (inset.Clip is { } clip)
        {
            var name = $"{id}c{++clips}";
            text.Append($"<clipPath id=\"{name}\"><rect x=\"{Number(clip.X)}\" y=\"{Number(clip.Y)}\" width=\"{Number(clip.Width)}\" height=\"{Number(clip.Height)}\"/></clipPath><g clip-path=\"url(#{name})\">");
        }
        var moved = inset.Move != default;
        if (moved) text.Append($"<g transform=\"translate({Number(inset.Move.X)} {Number(inset.Move.Y)})\">");
        Draw(inset.Marks);
        if (moved) text.Append("</g>");
        if (inset.Clip is not null) text.Append("</g>");
        text.Append('\n');
    }

    private void Draw(PixelPicture picture)
    {
        if (picture.Jpeg.IsEmpty)
        {
            Draw(picture.Meanwhile);
            return;
        }
        var box = picture.Box;
        text.Append($"<image x=\"{Number(box.X)}\" y=\"{Number(box.Y)}\" width=\"{Number(box.Width)}\" height=\"{Number(box.Height)}\" preserveAspectRatio=\"none\" href=\"data:image/jpeg;base64,");
        text.Append(Convert.ToBase64String(picture.Jpeg.AsSpan())).Append("\"/>\n");
    }

    private void Draw(Lettering lettering)
    {
        if (!styles.TryGetValue(lettering.Style, out var style)) styles[lettering.Style] = style = styles.Count + 1;
        var x = Number(lettering.At.X);
        var y = Number(lettering.At.Y);
        text.Append($"<text class=\"{id}{style}\" ");
        text.Append(lettering.Upward ? $"transform=\"translate({x} {y}) rotate(-90)\"" : $"x=\"{x}\" y=\"{y}\"");
        if (lettering.Anchor != Anchor.Start) text.Append(lettering.Anchor == Anchor.Middle ? " text-anchor=\"middle\"" : " text-anchor=\"end\"");
        text.Append('>').Append(Escaping.Xml(lettering.Text)).Append("</text>\n");
    }

    private void Draw(Shape shape)
    {
        text.Append("<path ").Append($"fill=\"{shape.Fill?.ToString() ?? "none"}\"");
        if (shape.Pen is { } pen)
        {
            text.Append($" stroke=\"{pen.Colour}\" stroke-width=\"{Number(pen.Width)}\"");
            if (pen.Round) text.Append(" stroke-linecap=\"round\" stroke-linejoin=\"round\"");
            if (pen.Dashes.Gap > 0) text.Append($" stroke-dasharray=\"{Number(pen.Dashes.Dash)} {Number(pen.Dashes.Gap)}\"");
        }
        text.Append(" d=\"");
        var spots = shape.Outline.Spots;
        var s = 0;
        Spot at = default;
        foreach (var stroke in shape.Outline.Strokes)
            switch (stroke)
            {
                case Stroke.Move:
                    text.Append('M');
                    Add(at = spots[s++]);
                    break;
                case Stroke.Line when spots[s].Y == at.Y:
                    text.Append('H').Append(Number((at = spots[s++]).X));
                    break;
                case Stroke.Line when spots[s].X == at.X:
                    text.Append('V').Append(Number((at = spots[s++]).Y));
                    break;
                case Stroke.Line:
                    text.Append('L');
                    Add(at = spots[s++]);
                    break;
                case Stroke.Curve:
                    text.Append('C');
                    Add(spots[s]);
                    text.Append(' ');
                    Add(spots[s + 1]);
                    text.Append(' ');
                    Add(at = spots[s + 2]);
                    s += 3;
                    break;
                default:
                    text.Append('Z');
                    break;
            }
        text.Append("\"/>\n");
    }

    private void Add(Spot spot) => text.Append(Number(spot.X)).Append(' ').Append(Number(spot.Y));
}

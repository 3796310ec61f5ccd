using System.Collections.Immutable;
using Pleatwright.Plate.Parts;

namespace Pleatwright.Plate.Playing;

/// <summary>A film on paper: a still of every move with its caption, row by row.</summary>
internal static class ContactSheet
{
    /// <summary>How high a still is over how wide.</summary>
    public const double Aspect = 0.62;

    private const double Gutter = 7;

    /// <summary>The sheets.</summary>
    /// <param name="film">The film.</param>
    /// <param name="paper">The paper.</param>
    /// <param name="look">How notes are dressed.</param>
    /// <param name="painted">What lies under the needle, painted; drawn where none is given. See <see cref="Painted"/>.</param>
    public static ImmutableArray<Sheet> Of(Film film, Paper paper, Look look, PaintedFilm? painted = null)
    {
        var columns = look.Large ? 2 : 3;
        List<Page> pages = [];
        var y = NewPage();
        var inner = pages[0].Inner;
        var width = (inner.Width - (columns - 1) * Gutter) / columns;
        var height = width * Aspect;
        TypeStyle body = look.Body with { Points = look.Large ? 16 : 8.5 }, number = look.Strong with { Points = body.Points };
        var leading = body.Points * 0.46;
        var shown = Shown(film);
        for (var i = 0; i < shown.Count; i += columns)
        {
            var row = shown.GetRange(i, Math.Min(columns, shown.Count - i));
            var lines = row.ConvertAll(t => Wrapping.Lines(film.Takes[t].Caption, body, width));
            var tall = height + leading * (1.6 + lines.Max(l => l.Count)) + 4;
            if (y + tall > inner.Bottom) y = NewPage();
            for (var c = 0; c < row.Count; c++)
            {
                var drawing = Still.Of(film, row[c], film.Takes[row[c]].Move.Pierces ? Gestures.Still : 1, Aspect, look, painted);
                var (x, scale) = (inner.X + c * (width + Gutter), width / drawing.View.Width);
                var box = new Box(x, y, width, height);
                var page = pages[^1];
                page.Figure(FigureWords.Beside, new Inset(Scaled(drawing, scale), new Spot(x - drawing.View.X * scale, y - drawing.View.Y * scale), box));
                page.Put(new Shape(Outline.Rectangle(box), null, look.Fine));
                var under = y + height + leading * 1.2;
                var told = film.Takes[row[c]].Stitch > 0 ? $"{row[c] + 1}   {Film.Number(film.Takes[row[c]])}" : $"{row[c] + 1}";
                page.Text(new Tag(Role.Subheading), x, under, told, number);
                using var _ = page.As(new Tag(Role.Paragraph));
                for (var l = 0; l < lines[c].Count; l++) page.Text(x, under + leading * (l + 1), lines[c][l], body);
            }
            y += tall;
        }
        return [.. pages.Select((page, i) => page.Finish(film.Title, i + 1, pages.Count))];

        double NewPage()
        {
            pages.Add(new Page("Move by move", paper, look));
            return pages[^1].Heading("Move by move", pages.Count == 1 ? film.Title : "continued", pages.Count == 1 ? 0 : -1);
        }
    }

    /// <summary>A film's pictures as finely as print is judged by.</summary>
    public static PaintedFilm Painted(Film film, Look look, CancellationToken cancel) => new(film, Aspect, DotsAcross / (look.Large ? 1 : 1.5) / film.Wide, cancel);

    private const double DotsAcross = 1000; // of half a page's width, 300 dots an inch (common practice, no source)

    /// <summary>The moves that have a still: of a long row only the first of each kind and the last, for what lies between is worked as they are.</summary>
    public static List<int> Shown(Film film)
    {
        const int alike = 2;
        var met = new Dictionary<string, int>();
        var last = film.Takes.Select((t, i) => (t.Stitch > 0, i)).Where(t => t.Item1).Select(t => t.i).DefaultIfEmpty(-1).Max();
        var shown = new List<int>();
        for (var i = 0; i < film.Takes.Length; i++)
        {
            var times = met[film.Takes[i].Caption] = met.GetValueOrDefault(film.Takes[i].Caption) + 1;
            if (times <= alike || i == last) shown.Add(i);
        }
        return shown;
    }

    /// <summary>A drawing's marks so many times as large.</summary>
    public static ImmutableArray<Mark> Scaled(Drawing drawing, double times) => [.. drawing.Marks.Select(m => m switch
    {
        PixelPicture p => new PixelPicture(new(p.Box.X * times, p.Box.Y * times, p.Box.Width * times, p.Box.Height * times), p.Pixels, p.Meanwhile),
        Shape s => s with
        {
            Outline = new Outline(s.Outline.Strokes, [.. s.Outline.Spots.Select(p => new Spot(p.X * times, p.Y * times))]),
            Pen = s.Pen is { } pen ? pen with { Width = pen.Width * times } : null,
        },
        _ => m,
    })];
}

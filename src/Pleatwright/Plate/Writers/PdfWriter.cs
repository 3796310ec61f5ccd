using System.Collections.Immutable;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;
using Pleatwright.Files;

namespace Pleatwright.Plate.Writers;

/// <summary>Sheets as a PDF: vector but for painted pictures, at true size, with the typefaces embedded and a list of contents.</summary>
internal static class PdfWriter
{
    private const double PointsPerMillimetre = 1 / Typeface.MillimetresPerPoint;

    // Figures in one path object; a path of a whole chart would be slow to show in some readers.
    private const int MostSpotsInPath = 20_000;

    /// <summary>Writes the sheets, tagged for those who have them read aloud (PDF/UA-1, ISO 14289-1). The same sheets always give the same bytes.</summary>
    /// <param name="title">Title of the document.</param>
    /// <param name="sheets">At least one sheet.</param>
    /// <param name="carried">The piece file that is attached; null for none.</param>
    /// <exception cref="ArgumentException">There are no sheets.</exception>
    public static byte[] Write(string title, ImmutableArray<Sheet> sheets, CarriedPiece? carried = null)
    {
        if (sheets.IsDefaultOrEmpty) throw new ArgumentException("A document has at least one sheet.", nameof(sheets));
        using var document = new PdfDocument { Version = 17 };
        var tagging = new PdfTagging(document, sheets);
        document.Info.Title = title;
        document.Info.Creator = "Pleatwright";
        document.Language = "en-GB";
        document.ViewerPreferences.DisplayDocTitle = true;
        document.PageMode = PdfPageMode.UseOutlines;
        PdfOutline? chapter = null;
        foreach (var sheet in sheets)
        {
            var page = document.AddPage();
            page.Width = XUnit.FromMillimeter(sheet.Width);
            page.Height = XUnit.FromMillimeter(sheet.Height);
            tagging.Begin(page, sheet);
            using (var graphics = XGraphics.FromPdfPage(page))
                new Painter(graphics).Draw(tagging);
            PdfTagging.Seal(page);
            foreach (var bookmark in sheet.Bookmarks)
            {
                var entry = new PdfOutline(bookmark.Title, page, opened: true)
                {
                    PageDestinationType = PdfPageDestinationType.Xyz,
                    Left = 0,
                    Top = (sheet.Height - bookmark.Y) * PointsPerMillimetre,
                };
                if (bookmark.Depth == 0 || chapter is null) document.Outlines.Add(chapter = entry);
                else chapter.Outlines.Add(entry);
            }
        }
        tagging.Finish();
        if (carried is not null) PdfAttaching.Attach(document, carried);
        return PdfSealing.Save(document);
    }

    // So that the last word of a line and the first of the next are two to those who have them read aloud.
    private const string LineEnd = " ";

    private sealed class Painter(XGraphics graphics)
    {
        private readonly Dictionary<(Face, double), XFont> fonts = [];
        private readonly Dictionary<Thread.Colour, XSolidBrush> brushes = [];

        public void Draw(PdfTagging tagging)
        {
            var state = graphics.Save(); // so that the page is begun before the first mark is tagged
            foreach (var (tag, marks) in tagging.Groups)
            {
                graphics.WriteComment(tagging.Opening(tag, marks));
                foreach (var (i, mark) in marks.Index())
                    if (mark is Lettering line && tag.Role is not (Role.Ornament or Role.Figure) && (tagging.GoesOn(tag) || marks.Skip(i + 1).Any(m => m is Lettering))) Draw(line, LineEnd);
                    else Draw(mark);
                PdfRendererExtensions.BeginGraphicMode(graphics); // text and tags are nested
                graphics.WriteComment(PdfTagging.Closing);
            }
            graphics.Restore(state);
        }

        private void Draw(Mark mark)
        {
            switch (mark)
            {
                case Shape shape: Draw(shape); break;
                case Lettering lettering: Draw(lettering); break;
                case Inset inset: Draw(inset); break;
                case PixelPicture picture: Draw(picture); break;
            }
        }

        private void Draw(Inset inset)
        {
            var state = graphics.Save();
            if (inset.Clip is { } clip)
                graphics.IntersectClip(new XRect(Pt(clip.X), Pt(clip.Y), Pt(clip.Width), Pt(clip.Height)));
            graphics.TranslateTransform(Pt(inset.Move.X), Pt(inset.Move.Y));
            foreach (var mark in inset.Marks) Draw(mark);
            graphics.Restore(state);
        }

        private void Draw(PixelPicture picture)
        {
            if (picture.Jpeg.IsEmpty)
            {
                foreach (var mark in picture.Meanwhile) Draw(mark);
                return;
            }
            using var image = XImage.FromStream(new MemoryStream([.. picture.Jpeg]));
            graphics.DrawImage(image, Pt(picture.Box.X), Pt(picture.Box.Y), Pt(picture.Box.Width), Pt(picture.Box.Height));
        }

        private void Draw(Lettering lettering, string end = "")
        {
            var style = lettering.Style;
            if (!fonts.TryGetValue((style.Face, style.Points), out var font))
                fonts[(style.Face, style.Points)] = font = Typeface.Font(style.Face, style.Points);
            var shift = lettering.Anchor switch
            {
                Anchor.Middle => -Typeface.Width(lettering.Text, style) / 2,
                Anchor.End => -Typeface.Width(lettering.Text, style),
                _ => 0,
            };
            if (!lettering.Upward)
            {
                graphics.DrawString(lettering.Text + end, font, Brush(style.Colour), Pt(lettering.At.X + shift), Pt(lettering.At.Y));
                return;
            }
            var state = graphics.Save();
            graphics.TranslateTransform(Pt(lettering.At.X), Pt(lettering.At.Y));
            graphics.RotateTransform(-90);
            graphics.DrawString(lettering.Text + end, font, Brush(style.Colour), Pt(shift), 0);
            graphics.Restore(state);
        }

        private void Draw(Shape shape)
        {
            var pen = shape.Pen is { } p ? Pen(p) : null;
            var brush = shape.Fill is { } fill ? Brush(fill) : null;
            var strokes = shape.Outline.Strokes;
            var spots = shape.Outline.Spots;
            // Closed figures are gathered into one path; the library would join open ones, so each is painted by itself.
            XGraphicsPath closed = NewPath(), figure = closed;
            var gathered = 0;
            XPoint at = default;
            for (int i = 0, s = 0; i < strokes.Length; i++)
                switch (strokes[i])
                {
                    case Stroke.Move:
                        if (gathered > MostSpotsInPath) Paint(ref closed, ref gathered);
                        figure = IsClosed(strokes, i) ? closed : NewPath();
                        at = Pt(spots[s++]);
                        break;
                    case Stroke.Line:
                        var to = Pt(spots[s++]);
                        figure.AddLine(at, to);
                        at = to;
                        Step(i);
                        break;
                    case Stroke.Curve:
                        var end = Pt(spots[s + 2]);
                        figure.AddBezier(at, Pt(spots[s]), Pt(spots[s + 1]), end);
                        at = end;
                        s += 3;
                        Step(i);
                        break;
                    default:
                        figure.CloseFigure();
                        break;
                }
            if (gathered > 0) Paint(ref closed, ref gathered);

            void Step(int i)
            {
                if (figure == closed) gathered++;
                else if (i + 1 == strokes.Length || strokes[i + 1] == Stroke.Move)
                {
                    var open = 1;
                    Paint(ref figure, ref open);
                }
            }

            void Paint(ref XGraphicsPath path, ref int count)
            {
                if (pen is not null && brush is not null) graphics.DrawPath(pen, brush, path);
                else if (pen is not null) graphics.DrawPath(pen, path);
                else if (brush is not null) graphics.DrawPath(brush, path);
                path = NewPath();
                count = 0;
            }
        }

        private static bool IsClosed(ImmutableArray<Stroke> strokes, int move)
        {
            var i = move + 1;
            while (i < strokes.Length && strokes[i] is Stroke.Line or Stroke.Curve) i++;
            return i < strokes.Length && strokes[i] == Stroke.Close;
        }

        private static XGraphicsPath NewPath() => new() { FillMode = XFillMode.Winding };

        private static XPen Pen(Pen pen)
        {
            var width = Pt(pen.Width);
            var drawn = new XPen(Colour(pen.Colour), width)
            {
                LineCap = pen.Round ? XLineCap.Round : XLineCap.Flat,
                LineJoin = pen.Round ? XLineJoin.Round : XLineJoin.Miter,
            };
            // Dashes are counted in widths of the pen.
            if (pen.Dashes.Gap > 0) drawn.DashPattern = [pen.Dashes.Dash / pen.Width, pen.Dashes.Gap / pen.Width];
            return drawn;
        }

        private XSolidBrush Brush(Thread.Colour colour)
        {
            if (!brushes.TryGetValue(colour, out var brush)) brushes[colour] = brush = new XSolidBrush(Colour(colour));
            return brush;
        }

        private static XColor Colour(Thread.Colour colour) => XColor.FromArgb(colour.Red, colour.Green, colour.Blue);

        private static XPoint Pt(Spot spot) => new(Pt(spot.X), Pt(spot.Y));

        private static double Pt(double millimetres) => millimetres * PointsPerMillimetre;
    }
}

using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Plate.Parts;

namespace Pleatwright.Plate.Preparation;

/// <summary>
/// Every number of the cloth on one page, to be pinned up where it is cut and gathered. The type shrinks a little when
/// there is much to say; what is too much even then goes on over the leaf.
/// </summary>
internal static class PleatingCard
{
    private static readonly ImmutableArray<double> Shrinkings = [1, 0.92, 0.84, 0.76, 0.68];

    public static List<Page> Of(Piece piece, PlateOptions options)
    {
        List<Page> pages = [];
        foreach (var shrink in Shrinkings)
        {
            pages = new Card(piece, options, shrink).Lay();
            if (pages.Count == 1) break;
        }
        return pages;
    }

    private sealed class Card(Piece piece, PlateOptions options, double shrink)
    {
        private readonly PleatingPlan plan = new(piece.Cloth);
        private readonly List<Page> pages = [];
        private readonly TypeStyle text = Scaled(options.Look.Body, shrink);
        private readonly TypeStyle strong = Scaled(options.Look.Strong, shrink);
        private readonly TypeStyle note = Scaled(options.Look.Note, shrink);
        private double y;

        private Look Look => options.Look;

        private Page Page => pages[^1];

        private double Leading => Look.Leading * shrink;

        // Room at the foot of the first page for the line that checks the strip of dots.
        private double Bottom => Page.Inner.Bottom - (pages.Count == 1 ? CheckLine.Height(Look) + 2 : 0);

        public List<Page> Lay()
        {
            NewPage();
            Strip();
            ClothPicture();
            foreach (var line in ClothWords.Of(plan, options.Units)) Entry(line.Label, line.Words);
            RowTable();
            Section("Worth knowing", Practice.Remarks(piece.Cloth, options.Units));
            if (piece.Calibration is { } found) Section("Swatch", CalibrationWords.Of(found, piece.Cloth.Gauge));
            Sizes();
            Section(CautionsPart.Heading, [CautionsPart.Words]);
            return pages;
        }

        private static TypeStyle Scaled(TypeStyle style, double by) => style with { Points = style.Points * by };

        private void NewPage()
        {
            pages.Add(new Page("Pleating card", options.Paper, Look));
            y = Page.Heading("Pleating card", Wrapping.Shorten(PreparationSheets.TitleOf(piece), Look.Lead, Page.Inner.Width * 0.6), pages.Count == 1 ? 0 : 1);
            if (pages.Count == 1) CheckLine.Draw(Page, options.Units);
        }

        private void Room(double height)
        {
            if (y + height > Bottom) NewPage();
        }

        // A dozen pleats of dots over the first rows, at true size: by these a bought dot sheet or a pleater is checked.
        private void Strip()
        {
            var rows = Math.Min(3, plan.RowsToGather);
            double takeUp = plan.Gauge.TakeUp.Millimetres, spacing = plan.Gauge.RowSpacing.Millimetres;
            var pleats = Math.Min(Math.Min(12, plan.PleatsToGather), (int)((Page.Inner.Width - 45) / takeUp));
            if (pleats < 1 || rows * spacing > 60) return;
            var dots = new OutlineBuilder();
            var radius = Math.Min(0.5, takeUp / 8);
            for (var row = 0; row < rows; row++)
                for (var dot = 0; dot < 2 * pleats; dot++)
                    dots.Circle(new Spot(Page.Inner.X + (dot + 0.5) * takeUp / 2, y + row * spacing + 1 + radius), radius);
            Page.Figure(FigureWords.Beside, new Shape(dots.Build(), Look.Ink));
            var words = Wrapping.Lines($"The dots of {pleats} pleats and {rows} rows at true size.", note, 40);
            for (var i = 0; i < words.Count; i++)
                Page.Text(Page.Inner.X + pleats * takeUp + 5, y + 2.5 + i * note.Points * 0.45, words[i], note);
            y += Math.Max((rows - 1) * spacing + 2, words.Count * note.Points * 0.45 + 2) + 5;
        }

        // The flat cloth across the page, not to scale: its edges, panels and joins, the seam pleats shaded, the centre.
        private void ClothPicture()
        {
            var dots = new DotDrawing(plan);
            var takeUp = plan.Gauge.TakeUp.Millimetres;
            var (left, right) = dots.CutEdges;
            double scale = Page.Inner.Width / (right - left), height = Look.Large ? 14 : 10, x0 = Page.Inner.X - left * scale;
            var style = Scaled(Look.Ruler, Math.Max(shrink, 0.8));
            var box = new Box(Page.Inner.X, y, Page.Inner.Width, height);
            Page.Fill(box, Look.Pleat);
            int seam = plan.Cloth.SeamPleats, gathered = plan.PleatsToGather;
            if (seam > 0)
            {
                Page.Fill(new Box(x0, y, seam * takeUp * scale, height), Look.Hairline);
                Page.Fill(new Box(x0 + (gathered - seam) * takeUp * scale, y, seam * takeUp * scale, height), Look.Hairline);
            }
            foreach (var share in plan.Shares)
            {
                double from = x0 + (share.First - 1 + seam) * takeUp * scale, to = x0 + (share.Last + seam) * takeUp * scale;
                if (plan.Shares.Length > 1 && share.Pleats > 0)
                    Page.Text((from + to) / 2, y + height / 2 + Typeface.CapHeight(style) / 2, Wrapping.Shorten(Tidy.Line(share.Name), style, to - from - 1), style, Anchor.Middle);
            }
            foreach (var join in plan.Joins) Upright((join.Valley + seam) * takeUp, new Pen(Look.Ink, 0.25) { Dashes = (1.5, 0.8) });
            var centre = (plan.CentreValley + seam) * takeUp;
            Page.Rule(x0 + centre * scale, y - 1.5, x0 + centre * scale, y + 1.5, new Pen(Look.Accent, 0.4));
            Page.Rule(x0 + centre * scale, y + height - 1.5, x0 + centre * scale, y + height + 1.5, new Pen(Look.Accent, 0.4));
            Page.Put(new Shape(Outline.Rectangle(box), null, new Pen(Look.Ink, 0.3)));
            y += height + 2 + Typeface.CapHeight(style);
            Page.Text(box.X, y, seam > 0 ? $"{seam} seam pleats" : "", style);
            Page.Text(x0 + centre * scale, y, $"centre valley {plan.CentreValley}", style with { Colour = Look.Accent }, Anchor.Middle);
            Page.Text(box.Right, y, seam > 0 ? $"{seam} seam pleats" : "", style, Anchor.End);
            y += 5;

            void Upright(double at, Pen pen) => Page.Rule(x0 + at * scale, y, x0 + at * scale, y + height, pen);
        }

        private void Entry(string label, string words)
        {
            var indent = Look.Large ? 34 : 24;
            var lines = Wrapping.Lines(Tidy.Line(words), text, Page.Inner.Width - indent);
            Room(lines.Count * Leading);
            using var _ = Page.As(new Tag(Role.Paragraph));
            if (label.Length > 0) Page.Text(Page.Inner.X, y + Leading * 0.75, label, strong);
            foreach (var line in lines)
            {
                Page.Text(Page.Inner.X + indent, y + Leading * 0.75, line, text);
                y += Leading;
            }
        }

        private void Section(string heading, ImmutableArray<string> sentences)
        {
            if (sentences.IsEmpty) return;
            y += Leading * 0.6;
            Room(Leading * 2);
            Page.Rule(Page.Inner.X, y - Leading * 0.25, Page.Inner.Right, y - Leading * 0.25, Look.Fine);
            for (var i = 0; i < sentences.Length; i++) Entry(i == 0 ? heading : "", sentences[i]);
        }

        // Where the pitch changes down the piece every row has figures of its own; they run in as many columns as fit.
        private void RowTable()
        {
            string[] cells = [.. Enumerable.Range(1, plan.Cloth.GatheringRows).Select(row => plan.Cloth.Form.RowFigures(plan, row)).OfType<string>()];
            if (cells.Length == 0) return;
            var width = cells.Max(c => Typeface.Width(c, text)) + 6;
            var columns = Math.Max(1, Math.Min(cells.Length, (int)(Page.Inner.Width / width)));
            var deep = (cells.Length + columns - 1) / columns;
            y += Leading * 0.6;
            Room(Leading * 3);
            Page.Rule(Page.Inner.X, y - Leading * 0.25, Page.Inner.Right, y - Leading * 0.25, Look.Fine);
            Page.Text(Page.Inner.X, y + Leading * 0.75, "Each gathering row, in millimetres", strong);
            y += Leading;
            for (var i = 0; i < deep; i++)
            {
                Room(Leading);
                for (var column = 0; column < columns && column * deep + i < cells.Length; column++)
                    Page.Text(Page.Inner.X + column * width, y + Leading * 0.75, cells[column * deep + i], text);
                y += Leading;
            }
        }

        private void Sizes()
        {
            if (piece.Sizes.IsEmpty) return;
            var lines = SizeTable.Of(piece).RemoveAt(0)
                .Select(line => $"{line.Name}: {string.Join(" ", SizeWords.Of(line, options.Units))}").ToImmutableArray();
            Section("Sizes", lines);
        }
    }
}

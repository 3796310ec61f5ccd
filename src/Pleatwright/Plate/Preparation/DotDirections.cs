using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Plate.Parts;

namespace Pleatwright.Plate.Preparation;

/// <summary>
/// Dot sheet: how it is used, and which side of the cloth is which: on a page before the dots, for these fill their paper. All common
/// practice, no source; that dots go on the wrong side, rows from the right with a knot and ends tied in pairs, is told alike by handbooks.
/// </summary>
internal static class DotDirections
{
    /// <summary>The page; more where the print is large.</summary>
    public static List<Page> Of(Piece piece, PleatingPlan plan, PlateOptions options)
    {
        var look = options.Look;
        List<Page> pages = [];
        double y = 0, bottom = 0;
        NewPage();
        var inner = pages[0].Inner;
        var columns = look.Large ? 1 : 2;
        const double gutter = 9;
        var width = (inner.Width - (columns - 1) * gutter) / columns;
        var left = piece.Working.Hand == Hand.Left;
        (string Words, ImmutableArray<Mark> Marks, double Height)[] pictures =
        [
            Picture("The wrong side, flat: up at one dot, down at the next.", Running(width, left, look)),
            Picture("Drawn up and seen from the edge: a pleat on the right side for every two dots.", Edge(width, look)),
        ];
        for (var i = 0; i < pictures.Length; i += columns)
        {
            var row = pictures.Skip(i).Take(columns).ToList();
            for (var c = 0; c < row.Count; c++)
            {
                var x = inner.X + c * (width + gutter);
                pages[^1].Figure(FigureWords.Beside, new Inset(row[c].Marks, new Spot(x, y)));
                using var _ = pages[^1].As(new Tag(Role.Paragraph));
                pages[^1].Put(new Shape(Outline.Rectangle(new Box(x, y, width, PictureHeight(look))), null, look.Fine));
                foreach (var (l, line) in Wrapping.Lines(row[c].Words, look.Note, width).Index())
                    pages[^1].Text(x, y + PictureHeight(look) + look.Note.Points * 0.46 * (l + 1), line, look.Note);
            }
            y += row.Max(p => p.Height) + 5;
        }
        var indent = look.Large ? 10 : 6;
        foreach (var (i, step) in Steps(piece, plan, options).Index())
        {
            var lines = Wrapping.Lines(step, look.Body, inner.Width - indent);
            if (y + lines.Count * look.Leading > bottom) NewPage();
            using var _ = pages[^1].As(new Tag(Role.Paragraph));
            pages[^1].Text(inner.X, y + look.Leading * 0.75, (i + 1).ToString(System.Globalization.CultureInfo.InvariantCulture), look.Strong);
            foreach (var line in lines)
            {
                pages[^1].Text(inner.X + indent, y + look.Leading * 0.75, line, look.Body);
                y += look.Leading;
            }
            y += look.Leading * 0.35;
        }
        y += look.Leading * 0.6;
        var cautions = Wrapping.Lines($"{CautionsPart.Heading}. {CautionsPart.Words}", look.Note, inner.Width);
        if (y + cautions.Count * look.Note.Points * 0.46 > bottom) NewPage();
        var warned = new Tag(Role.Paragraph);
        foreach (var (l, line) in cautions.Index()) pages[^1].Text(warned, inner.X, y + look.Note.Points * 0.46 * (l + 0.8), line, look.Note);
        return pages;

        (string, ImmutableArray<Mark>, double) Picture(string words, ImmutableArray<Mark> marks) =>
            (words, marks, PictureHeight(look) + look.Note.Points * 0.46 * Wrapping.Lines(words, look.Note, width).Count);

        void NewPage()
        {
            var page = new Page("Dot sheet: how it is used", options.Paper, look);
            y = page.Heading("Dot sheet: how it is used", pages.Count == 0 ? Wrapping.Shorten(PreparationSheets.TitleOf(piece), look.Lead, page.Inner.Width * 0.45) : "continued", pages.Count == 0 ? 0 : -1);
            CheckLine.Draw(page, options.Units);
            bottom = page.Inner.Bottom - CheckLine.Height(look) - 2;
            pages.Add(page);
        }
    }

    private static double PictureHeight(Look look) => look.Large ? 44 : 34;

    /// <summary>What is done, in order.</summary>
    internal static IEnumerable<string> Steps(Piece piece, PleatingPlan plan, PlateOptions options)
    {
        var cloth = plan.Cloth;
        var (begin, other) = piece.Working.Hand == Hand.Left ? ("left", "right") : ("right", "left");
        var finished = LengthWords.Say(plan.FinishedWidth, options.Units);
        yield return "Print at 100 % and measure the line below. Where there are several sheets, lay dot on dot: what one shows at its edge the next shows again.";
        yield return "The sheet shows the wrong side of the cloth, its top edge up. Pleats are numbered as on the right side, so pleat 1 is at your right here.";
        yield return "Put thin cloth over the sheet, wrong side up, the grain along the rows, and mark the dots; lay the sheet on cloth that you cannot see through, and prick the dots. "
            + "Mark with what comes out again, and try it on a scrap first. No dot should show on the right side.";
        if (cloth.HoldingRowsAbove + cloth.HoldingRowsBelow > 0)
            yield return $"Full dots are the {Counting.Of(cloth.GatheringRows, "gathering row")}, numbered from the top; open dots are holding rows, which are gathered too and not stitched: {Counting.Of(plan.RowsToGather, "row")} in all.";
        yield return $"Thread a strong thread for each row, longer than the row by a hand, in a colour that shows, with a knot at its end. Work from {begin} to {other}: up through the first dot, down through the second, up through the third. "
            + "Each length of thread that you see spans one pleat, from its one dot to its other. Do not take up a stitch at every dot: that would make two pleats of one. Leave the ends hanging.";
        yield return $"When every row is in, draw all the threads up together until the {plan.Pleats} pleats between the seams are {finished} {cloth.Form.Lies}. Stroke the pleats straight, count them "
            + $"({plan.PleatsToGather}: {plan.Pleats} to stitch{(cloth.SeamPleats > 0 ? $" and {cloth.SeamPleats} at each side for the seam" : "")}), and tie the ends in pairs.";
        yield return "Turn the cloth over. The right side is the one to stitch: its pleats stand up between the threads’ dots, and pleat 1 is at your left. Backsmocking is worked on the side with the dots.";
    }

    // Three pleats flat, from the wrong side, the thread run half way.
    private static ImmutableArray<Mark> Running(double width, bool left, Look look)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        const int dots = 8;
        double step = width / (dots + 1), middle = PictureHeight(look) * 0.52;
        double X(double dot) => left ? (dot + 1) * step : width - (dot + 1) * step;
        marks.Add(new Shape(Outline.Rectangle(new Box(0, 0, width, PictureHeight(look))), look.Pleat));
        for (var d = 0; d < dots; d++)
        {
            var dot = new OutlineBuilder();
            foreach (var row in (double[])[-0.36, 0, 0.36]) dot.Circle(new Spot(X(d), middle + row * PictureHeight(look) * 0.72), 0.7);
            marks.Add(new Shape(dot.Build(), look.Ink));
        }
        var thread = new Pen(look.Alarm, 0.8) { Round = true };
        for (var d = 0; d + 1 < 6; d++)
            marks.Add(new Shape(Outline.Line(X(d), middle, X(d + 1), middle), null, d % 2 == 0 ? thread : new Pen(look.Alarm, 0.5) { Dashes = (1, 1) }));
        marks.Add(new Shape(new OutlineBuilder().Circle(new Spot(X(-0.25), middle), 1).Build(), null, new Pen(look.Alarm, 0.6)));
        marks.Add(new Shape(Outline.Line(X(-0.25), middle, X(0), middle), null, new Pen(look.Alarm, 0.5) { Dashes = (1, 1) }));
        var tip = left ? 1 : -1;
        marks.Add(new Shape(Outline.Line(X(5), middle, X(5) + tip * step * 1.7, middle - 3), null, new Pen(look.Quiet, 0.9) { Round = true }));
        foreach (var (pleat, d) in ((int, double)[])[(1, 0.5), (2, 2.5), (3, 4.5)])
            marks.Add(new Lettering(new Spot(X(d), middle - 2.6), pleat == 1 ? "first pleat" : pleat == 2 ? "second" : "third", look.Note, Anchor.Middle));
        return marks.ToImmutable();
    }

    // The drawn-up cloth seen along the pleats: crests up on the right side, the thread through every flank.
    private static ImmutableArray<Mark> Edge(double width, Look look)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        const int pleats = 5;
        double height = PictureHeight(look), room = look.Large ? 12 : 8, top = room, bottom = height - room, middle = (top + bottom) / 2, pitch = width * 0.8 / pleats, x0 = width * 0.1;
        var cloth = new OutlineBuilder().MoveTo(x0 - pitch * 0.25, bottom);
        for (var p = 0; p < pleats; p++)
        {
            var at = x0 + p * pitch;
            cloth.CurveTo(new(at + pitch * 0.22, bottom), new(at, top), new(at + pitch / 2, top));
            cloth.CurveTo(new(at + pitch, top), new(at + pitch * 0.78, bottom), new(at + pitch, bottom));
        }
        marks.Add(new Shape(Outline.Line(x0 - pitch * 0.4, middle, x0 + pleats * pitch + pitch * 0.1, middle), null, new Pen(look.Alarm, 0.8) { Round = true }));
        marks.Add(new Shape(cloth.Build(), null, new Pen(look.Ink, 0.9) { Round = true }));
        var dots = new OutlineBuilder();
        for (var p = 0; p < pleats; p++)
            foreach (var d in (double[])[0.185, 0.815]) dots.Circle(new Spot(x0 + (p + d) * pitch, middle), 0.7);
        marks.Add(new Shape(dots.Build(), look.Ink));
        marks.Add(new Lettering(new Spot(width / 2, room * 0.65), "right side", look.Note, Anchor.Middle));
        marks.Add(new Lettering(new Spot(width / 2, height - room * 0.3), "wrong side, with the dots", look.Note, Anchor.Middle));
        return marks.ToImmutable();
    }
}

using At = Pleatwright.Tests.Plate.Preparation.PdfMeasure.At;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Plate;
using Pleatwright.Plate.Preparation;
using Pleatwright.Plate.Writers;
using Pleatwright.Tests.Endurance;
using UglyToad.PdfPig;

namespace Pleatwright.Tests.Plate.Preparation;

public class PreparationTests
{
    private const double Tolerance = 0.1; // millimetres

    private static Piece Example(string name) => Plates.Example(name).Piece;

    private static List<(List<PdfMeasure.Straight> Lines, List<PdfMeasure.Curved> Curves)> Measured(Piece piece, PreparationKind kind, PlateOptions? options = null) =>
        PdfMeasure.Read(PdfWriter.Write(piece.Title, PreparationSheets.Make(piece, kind, options ?? new PlateOptions())));

    private static Piece Bare(ClothPlan cloth) => new("Bare", cloth, [], [], []);

    [Fact]
    public void Dots_lie_two_to_a_pleat_and_rows_apart_as_planned()
    {
        // 182 pleats to gather, 11 rows; dots 3 mm, rows 3/8 in apart.
        var pages = Measured(Example("harbour-morning"), PreparationKind.Dots)[1..]; // the first tells how they are used
        foreach (var (_, curves) in pages)
        {
            var rows = curves.Where(c => c.Closed).Select(c => c.Centre).GroupBy(c => Math.Round(c.Y, 1)).OrderBy(g => g.Key).ToArray();
            Assert.Equal(11, rows.Length);
            for (var row = 0; row < rows.Length; row++)
            {
                Assert.Equal(row * 9.525, rows[row].Average(c => c.Y) - rows[0].Average(c => c.Y), Tolerance);
                var dots = rows[row].Select(c => c.X).Order().ToArray();
                for (var i = 0; i < dots.Length; i++) Assert.Equal(dots[0] + i * 3, dots[i], Tolerance);
            }
        }
        // Neighbouring pages show one pleat twice.
        Assert.Equal(2 * 182 * 11 + (pages.Count - 1) * 2 * 11, pages.Sum(p => p.Curves.Count(c => c.Closed)));
    }

    [Theory]
    [InlineData(PreparationKind.Dots)]
    [InlineData(PreparationKind.Blocking)]
    [InlineData(PreparationKind.Card)]
    public void Every_page_at_true_size_has_lines_of_10_cm_and_4_in(PreparationKind kind)
    {
        foreach (var name in (string[])["harbour-morning", "quay-bishop", "net-float"])
            foreach (var (lines, _) in Measured(Example(name), kind))
            {
                Assert.Contains(lines, l => Math.Abs(l.Length - 100) < Tolerance && Math.Abs(l.From.Y - l.To.Y) < 0.01);
                Assert.Contains(lines, l => Math.Abs(l.Length - 101.6) < Tolerance && Math.Abs(l.From.Y - l.To.Y) < 0.01);
            }
    }

    // Arc length rθ and concentric circles, elementary geometry: measured on the printed curves themselves.
    [Theory]
    [InlineData(360, 11)]
    [InlineData(270, 13)]
    [InlineData(150, 16)]
    [InlineData(40, 10)]
    public void A_bishops_rows_are_arcs_of_the_blocked_length(double sweep, double neck)
    {
        var bishop = Example("quay-bishop");
        var round = (Round)bishop.Cloth.Form;
        bishop = bishop with { Cloth = bishop.Cloth with { Form = new Round(Length.FromInches(neck), Angle.FromDegrees(sweep), round.Panels) } };
        var theta = sweep * Math.PI / 180;
        var r0 = neck * 25.4 / theta;
        // Every page draws every arc, clipped to its share; the first tells all.
        var arcs = Measured(bishop, PreparationKind.Blocking)[0].Curves.Where(c => !c.Closed).OrderBy(a => a.Length).ToArray();
        Assert.Equal(9, arcs.Length);
        var centre = CentreOf(arcs[^1]);
        for (var i = 0; i < arcs.Length; i++)
        {
            var radius = r0 + (i - 1) * 9.525; // the first is the holding row above
            Assert.All(arcs[i].Along(), p => Assert.Equal(radius, p.From(centre), Tolerance));
            Assert.Equal(radius * theta, arcs[i].Length, Tolerance);
        }
        Assert.Equal(neck * 25.4, arcs[1].Length, Tolerance);
    }

    [Fact]
    public void A_bishops_seams_lie_at_the_angle_of_their_valleys()
    {
        var bishop = Example("quay-bishop");
        var plan = new PleatingPlan(bishop.Cloth);
        var (lines, curves) = Measured(bishop, PreparationKind.Blocking)[0];
        var centre = CentreOf(curves.Where(c => !c.Closed).MaxBy(c => c.Length)!);
        double inner = plan.FinishedWidth.Millimetres / (2 * Math.PI) - 9.525, outer = inner + 8 * 9.525;
        var spokes = lines.Where(l => Math.Abs(l.From.From(centre) - inner) < Tolerance && Math.Abs(l.To.From(centre) - outer) < Tolerance)
            .Select(l => Math.Atan2(l.To.X - centre.X, l.To.Y - centre.Y)).ToArray();
        foreach (var valley in plan.Joins.Select(j => j.Valley).Append(plan.CentreValley).Append(0).Append(plan.Pleats))
        {
            var angle = (valley / (double)plan.Pleats - 0.5) * 2 * Math.PI;
            Assert.Contains(spokes, s => Math.Abs(Math.IEEERemainder(s - angle, 2 * Math.PI)) * outer < Tolerance);
        }
    }

    [Fact]
    public void A_panels_guide_is_as_wide_and_as_deep_as_the_finished_panel()
    {
        var panel = Example("harbour-morning");
        var pages = Measured(panel, PreparationKind.Blocking, new PlateOptions { Paper = Paper.A3 });
        var (lines, _) = Assert.Single(pages);
        // Rows run over the finished pleats and three seam pleats at each side.
        var rows = lines.Where(l => Math.Abs(l.Length - 182 * 25.4 / 16) < Tolerance).Select(l => l.From.Y).Order().ToArray();
        Assert.Equal(11, rows.Length);
        for (var i = 0; i < rows.Length; i++) Assert.Equal(i * 9.525, rows[i] - rows[0], Tolerance);
        var edges = lines.Where(l => Math.Abs(l.Length - 11 * 9.525) < Tolerance && Math.Abs(l.From.X - l.To.X) < 0.01).Select(l => l.From.X).Order().ToArray();
        Assert.Equal(279.4, edges[^1] - edges[0], Tolerance); // 11 in
        Assert.Contains(edges, x => Math.Abs(x - (edges[0] + edges[^1]) / 2) < Tolerance); // the centre
    }

    // Circle of latitude πD sin φ and meridian πD/2 of a sphere, elementary geometry.
    [Fact]
    public void A_balls_strip_is_an_eighth_of_each_circle_of_latitude()
    {
        var (lines, _) = Assert.Single(Measured(Example("net-float"), PreparationKind.Blocking));
        const double d = 76.2, meridian = Math.PI * d / 2, first = (meridian - 8 * 9.525) / 2;
        for (var row = 0; row < 9; row++)
        {
            var along = first + row * 9.525;
            var width = Math.PI * d * Math.Sin(along / (d / 2)) / 8;
            Assert.Contains(lines, l => Math.Abs(l.From.Y - l.To.Y) < 0.01 && Math.Abs(l.Length - width) < Tolerance);
        }
        var outline = lines.Where(l => l.Length is > 0.3 and < 1 && Math.Abs(l.From.Y - l.To.Y) > 0.01 && l.From.X != l.To.X).ToArray();
        Assert.Equal(meridian, outline.Max(l => Math.Max(l.From.Y, l.To.Y)) - outline.Min(l => Math.Min(l.From.Y, l.To.Y)), Tolerance);
    }

    [Fact]
    public void Pages_of_dots_together_show_every_dot() =>
        (from width in Gen.Double[1, 40]
         from takeUp in Gen.Double[0.12, 0.8]
         from rows in Gen.Int[2, 60]
         from spacing in Gen.Double[0.25, 0.75]
         from seamPleats in Gen.Int[0, 6]
         from margins in Gen.Double[0, 1]
         from paper in Gen.Int[0, 2].Select(i => Paper.All[i])
         select (Cloth: new ClothPlan(new Panel(Length.FromInches(width)), new Gauge(Length.FromInches(0.1), Length.FromInches(takeUp), Length.FromInches(spacing), 2), rows)
         {
             SeamPleats = seamPleats,
             Selvedges = Length.FromInches(margins),
             Ravelling = Length.FromInches(margins / 3),
         }, paper)).Sample(wanted =>
        {
            var plan = new PleatingPlan(wanted.Cloth);
            var seen = new HashSet<(int, int)>();
            foreach (var sheet in PreparationSheets.Dots(Bare(wanted.Cloth), new PlateOptions { Paper = wanted.paper }).Where(s => s.Name != "Dot sheet: how it is used"))
            {
                var inset = sheet.Marks.OfType<Inset>().First(i => i.Clip is not null);
                var clip = inset.Clip!.Value;
                Assert.InRange(clip.X, 0, sheet.Width - clip.Width);
                Assert.InRange(clip.Bottom, 0, sheet.Height - 20);
                foreach (var dot in inset.Marks.OfType<Shape>().Where(s => s.Outline.Strokes.Contains(Stroke.Curve)))
                    // A round figure begins a radius to the right of its box's left edge: at its top middle.
                    for (int i = 0, s = 0; i < dot.Outline.Strokes.Length; s += Spots(dot.Outline.Strokes[i++]))
                        if (dot.Outline.Strokes[i] == Stroke.Move)
                        {
                            var at = dot.Outline.Spots[s];
                            Assert.InRange(at.X + inset.Move.X, clip.X, clip.Right);
                            seen.Add(((int)Math.Round(at.X / (plan.Gauge.TakeUp.Millimetres / 2) - 0.5), (int)Math.Round(at.Y / plan.Gauge.RowSpacing.Millimetres)));
                        }
            }
            Assert.Equal(2 * plan.PleatsToGather * plan.RowsToGather, seen.Count);
        }, iter: Long.Of(10, 30));

    private static List<Lettering> Letters(IEnumerable<Mark> marks) =>
        [.. marks.SelectMany(m => m switch { Lettering l => [l], Inset i => Letters(i.Marks).Select(l => l with { At = new Spot(l.At.X + i.Move.X, l.At.Y + i.Move.Y) }), _ => (IEnumerable<Lettering>)[] })];

    [Theory]
    [InlineData("harbour-morning", Hand.Right)]
    [InlineData("quay-bishop", Hand.Left)]
    [InlineData("net-float", Hand.Right)]
    public void The_dot_sheet_says_how_it_is_used_and_which_side_it_shows(string example, Hand hand)
    {
        var piece = Example(example) with { Working = Example(example).Working with { Hand = hand } };
        var plan = new PleatingPlan(piece.Cloth);
        foreach (var options in (PlateOptions[])[new(), new() { Paper = Paper.Letter }, new() { LargePrint = true }])
        {
            var sheets = PreparationSheets.Dots(piece, options);
            var told = string.Join(" ", sheets.TakeWhile(s => s.Name == "Dot sheet: how it is used").SelectMany(s => Letters(s.Marks)).Select(l => l.Text));
            foreach (var words in (string[])["wrong side", "right side", "pleat 1 is at your right here", "pleat 1 is at your left", hand == Hand.Right ? "Work from right to left" : "Work from left to right", $"({plan.PleatsToGather}: {plan.Pleats} to stitch", "Measure this line", "Count needles and pins out"])
                Assert.Contains(words, told);
            foreach (var sheet in sheets)
            {
                if (sheet.Name != "Dot sheet: how it is used") Assert.Contains(Letters(sheet.Marks), l => l.Text.Contains("wrong side, top edge up", StringComparison.Ordinal));
                foreach (var l in Letters(sheet.Marks))
                {
                    Assert.True(l.Style.Points >= 8, $"{l.Text}: {l.Style.Points} points");
                    var left = l.At.X - Typeface.Width(l.Text, l.Style) * (l.Anchor switch { Anchor.Start => 0, Anchor.Middle => 0.5, _ => 1 });
                    Assert.True(l.Upward || (left > 8 && left + Typeface.Width(l.Text, l.Style) < sheet.Width - 8 && l.At.Y < sheet.Height - 8), $"{sheet.Name}: {l.Text}");
                }
            }
        }
    }

    // On the wrong side left and right change places: by mirroring, elementary geometry.
    [Fact]
    public void The_dots_are_numbered_and_joined_as_they_lie_on_the_wrong_side()
    {
        var plan = new PleatingPlan(Example("quay-bishop").Cloth);
        var dots = new DotDrawing(plan);
        var takeUp = plan.Gauge.TakeUp.Millimetres;
        var all = plan.PleatsToGather * takeUp;
        var labels = dots.Label(dots.Extent, Look.Booklet).OfType<Lettering>().ToList();
        double At(string words) => Assert.Single(labels, l => l.Text == words && l.At.Y < dots.Extent.Y).At.X;
        Assert.Equal(all - (plan.Cloth.SeamPleats + 0.5) * takeUp, At("1"), 6);
        Assert.Equal(all - (plan.Cloth.SeamPleats + 9.5) * takeUp, At("10"), 6);
        var upright = dots.Draw(dots.Extent, Look.Booklet).OfType<Shape>().Where(s => s.Outline.Spots.Length == 2 && s.Outline.Spots[0].X == s.Outline.Spots[1].X).Select(s => s.Outline.Spots[0].X).ToList();
        Assert.NotEmpty(plan.Joins);
        foreach (var join in plan.Joins) Assert.Contains(upright, x => Math.Abs(x - (all - (join.Valley + plan.Cloth.SeamPleats) * takeUp)) < 1e-6);
    }

    [Theory]
    [InlineData("harbour-morning")]
    [InlineData("quay-bishop")]
    [InlineData("net-float")]
    [InlineData("quay-yoke")]
    public void The_card_says_every_number_on_one_page(string example)
    {
        var piece = Example(example);
        var plan = new PleatingPlan(piece.Cloth);
        foreach (var paper in Paper.All)
        {
            var sheets = PreparationSheets.Card(piece, new PlateOptions { Paper = paper, Units = UnitSystem.Both });
            Assert.Single(sheets);
            using var read = PdfDocument.Open(PdfWriter.Write(piece.Title, sheets));
            var page = read.GetPage(1); // read anew at each call
            var words = page.GetWords().Select(w => w.Text.Trim(',', ':', ';', '.')).ToHashSet();
            foreach (var number in (int[])[plan.Pleats, plan.PleatsToGather, plan.CentreValley, plan.RowsToGather, plan.Cloth.GatheringRows, plan.CableRows])
                Assert.Contains(number.ToString(System.Globalization.CultureInfo.InvariantCulture), words);
            Assert.All(page.Letters.Where(l => l.Value != " "), l => Assert.InRange(l.BoundingBox.Right, 0, (double)page.Width - 39));
        }
    }

    [Fact]
    public void A_sheet_past_all_paper_is_refused_with_a_count()
    {
        var cloth = new ClothPlan(new Panel(Length.FromMetres(8)), Gauge.FromPleatsPerInch(12, Length.FromInches(4), Length.FromInches(8), 1), 200);
        var e = Assert.Throws<PlateTooLargeException>(() => PreparationSheets.Dots(Bare(cloth), new PlateOptions()));
        Assert.Contains("500 is the most", e.Message);
    }

    [Fact]
    public void The_same_piece_gives_the_same_sheets()
    {
        foreach (var kind in Enum.GetValues<PreparationKind>())
            Assert.Equal(Svg(kind), Svg(kind));
        static string Svg(PreparationKind kind) => SvgWriter.Write("t", PreparationSheets.Make(Example("quay-bishop"), kind, new PlateOptions()));
    }

    private static int Spots(Stroke stroke) => stroke switch { Stroke.Curve => 3, Stroke.Close => 0, _ => 1 };

    // The centre of the circle through three spots of an arc (circumcentre, elementary geometry).
    private static At CentreOf(PdfMeasure.Curved arc)
    {
        var spots = arc.Along().ToArray();
        At a = spots[0], b = spots[spots.Length / 3], c = spots[2 * spots.Length / 3];
        double d = 2 * (a.X * (b.Y - c.Y) + b.X * (c.Y - a.Y) + c.X * (a.Y - b.Y));
        double aa = a.X * a.X + a.Y * a.Y, bb = b.X * b.X + b.Y * b.Y, cc = c.X * c.X + c.Y * c.Y;
        return new At((aa * (b.Y - c.Y) + bb * (c.Y - a.Y) + cc * (a.Y - b.Y)) / d, (aa * (c.X - b.X) + bb * (a.X - c.X) + cc * (b.X - a.X)) / d);
    }
}

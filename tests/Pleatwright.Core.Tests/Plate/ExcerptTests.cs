using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Parts;
using Pleatwright.Plate.Sections;
using Pleatwright.Plate.Writers;
using Pleatwright.Tests.Chart.Stitches;
using Pleatwright.Tests.Endurance;
using Pleatwright.Tests.Order;

namespace Pleatwright.Tests.Plate;

/// <summary>The working chart shows every step once, where it can be read.</summary>
public class ExcerptTests
{
    private static Gen<WorkingOrder> Orders => Gen.OneOf(SomeWorks.Any, OrderGen.Pieces.Select(Work.Lay), BandGen.Pieces.Select(Work.Lay)).Select(work => Planner.Plan(work, Effort.Drawing));

    public static TheoryData<string> Examples => [.. Directory.GetFiles(Path.Combine(Repository.Root, "examples"), "*.piece.json").Select(f => Path.GetFileName(f)[..^".piece.json".Length])];

    private static void Told(WorkingOrder order)
    {
        var told = new int[order.Steps.Length + 1];
        foreach (var excerpt in Excerpts.Of(order))
            foreach (var step in excerpt.Steps.Concat(excerpt.Again.SelectMany(a => a))) told[step.Number]++;
        foreach (var repeat in Copies.Of(order))
            for (var number = repeat.Last + 1; number <= repeat.End; number++) told[number]++;
        Assert.All(told[1..], times => Assert.Equal(1, times));
    }

    [Fact]
    public void Every_step_is_charted_once_or_is_that_of_a_copy() => Orders.Sample(Told, iter: Long.Of(60, 2000));

    [Theory, MemberData(nameof(Examples))]
    public void Every_step_of_an_example_is_charted_once(string example) => Told(Planner.Plan(Plates.Example(example), Effort.Drawing));

    [Fact]
    public void An_excerpt_of_figures_shows_all_of_them() => Orders.Sample(order =>
    {
        foreach (var excerpt in Excerpts.Of(order).Where(e => !e.Steps.IsEmpty && e.Title.Length == 0))
        {
            var box = Excerpts.BoxOf(excerpt.Steps);
            Assert.True(excerpt.Window.FirstPleat <= box.FirstPleat && excerpt.Window.LastPleat >= box.LastPleat && excerpt.Window.FirstRow <= box.FirstRow && excerpt.Window.LastRow >= box.LastRow);
        }
    }, iter: Long.Of(60, 2000));

    [Fact]
    public void What_is_worked_again_on_other_rows_is_told_with_its_rows() => Orders.Sample(order => { Again(order); }, iter: Long.Of(60, 2000));

    [Fact]
    public void The_second_gull_is_told_on_the_first_s_chart() => Assert.Equal([(19, 33, 2)], Again(Planner.Plan(Plates.Example("gulls-turning"))));

    private static List<(int First, int Last, int Lower)> Again(WorkingOrder order)
    {
        var told = Excerpts.Of(order).SelectMany(e => e.Elsewhere.Select(c => (Excerpt: e, Copy: c))).ToList();
        foreach (var (excerpt, copy) in told)
        {
            var steps = order.Steps[(copy.First - 1)..copy.Last];
            Assert.Equal(excerpt.Steps.Length, steps.Length);
            Assert.All(excerpt.Steps.Zip(steps), p => Assert.Equal(copy.Lower * order.Work.Pleating.Gauge.CableRowsPerSpace, p.Second.Row.Index - p.First.Row.Index));
        }
        Assert.Equal(Copies.Of(order).Sum(r => r.Again.Count(c => c.Lower != 0)), told.Count);
        return told.ConvertAll(t => t.Copy);
    }

    [Theory, MemberData(nameof(Examples))]
    public void Sides_of_the_chart_are_called_as_the_directions_call_them(string example)
    {
        string[] upright = ["left", "right", "left of the centre", "right of the centre"], sideways = ["near", "far", "on the near side of the centre", "on the far side of the centre"];
        foreach (var edition in Enum.GetValues<Edition>())
            foreach (var levels in Enum.GetValues<LevelWords>())
            {
                var drawn = Plates.OfExample(example, new PlateOptions { Edition = edition, Levels = levels, TrueScaleChart = true }).Sheets
                    .SelectMany(s => s.Marks.OfType<Inset>()).SelectMany(i => i.Marks).OfType<Lettering>().Select(l => l.Text).ToHashSet();
                var (called, other) = levels == LevelWords.UpDown ? (upright, sideways) : (sideways, upright);
                if (edition == Edition.Plate) Assert.True(drawn.Overlaps(called) || drawn.Contains(levels == LevelWords.UpDown ? "R" : "N"));
                Assert.False(drawn.Overlaps(other), string.Join(", ", drawn.Intersect(other)));
            }
    }

    // Steps are printed strong, counts are not.
    private static IEnumerable<Lettering> Numbers(IEnumerable<Mark> marks) => marks.OfType<Lettering>().Where(l => l.Style.Face == Face.TextBold && l.Text.All(char.IsAsciiDigit));

    [Fact]
    public void Every_step_marked_has_its_number_once_and_words_lie_over_no_stitch_of_their_row_and_over_no_others() =>
        Gen.Select(Orders, Gen.Double[0.95, 3], Gen.Bool).Sample((order, share, bounded) =>
        {
            var geometry = new ChartGeometry(order.Work, 2.2 * share, 2.2);
            foreach (var excerpt in Excerpts.Of(order))
            {
                var marks = new StepMarks(geometry, order, excerpt.Steps, excerpt.Window, Look.Booklet, bounded);
                var drawn = marks.Draw().ToList();
                var begun = excerpt.Steps.Where(s => (order.TravelsRight(s) ? s.From.LeftPleat : s.From.RightPleat).Number is var pleat && pleat >= excerpt.Window.FirstPleat && pleat <= excerpt.Window.LastPleat);
                Assert.Equal(begun.Select(s => s.Number).Order(), Numbers(drawn).Select(l => int.Parse(l.Text, System.Globalization.CultureInfo.InvariantCulture)).Order());
                // nothing is marked beyond what is shown
                var shown = geometry.BoxOf(excerpt.Window).Grown(1);
                foreach (var mark in drawn.OfType<Shape>().Where(s => s.Pen is not null && s.Outline.Strokes.Length > 4)) Assert.True(shown.Holds(Around(mark.Outline).Centre));
                // what is written beside stitches stands on white; no white lies over a stitch of its row, nor over another
                var whites = drawn.OfType<Shape>().Where(s => s.Fill == Pleatwright.Thread.Colour.White && s.Pen is null).Select(s => Around(s.Outline)).ToList();
                foreach (var (i, white) in whites.Index())
                {
                    foreach (var other in whites.Skip(i + 1)) Assert.False(Meet(white, other));
                    foreach (var brick in geometry.Bricks(excerpt.Window).Where(b => Math.Abs(geometry.Middle(order.Work.Runs[b.RunIndex].Row) - white.Centre.Y) < 0.01))
                        Assert.False(Meet(white, brick.Box.Grown(-0.6)));
                }
            }
        }, iter: Long.Of(40, 1000));

    private static Box Around(Outline outline)
    {
        double left = outline.Spots.Min(s => s.X), top = outline.Spots.Min(s => s.Y);
        return new Box(left, top, outline.Spots.Max(s => s.X) - left, outline.Spots.Max(s => s.Y) - top);
    }

    private static bool Meet(Box a, Box b) => a.X < b.Right && b.X < a.Right && a.Y < b.Bottom && b.Y < a.Bottom;

    private static int Most(string example) => example switch { "harbour-wall" or "quay-bishop" => 6, "flawed-kite" => 5, _ => 4 };

    [Theory, MemberData(nameof(Examples))]
    public void A_plate_is_short(string example)
    {
        foreach (var paper in (Paper[])[Paper.A4, Paper.Letter])
            Assert.InRange(Plates.OfExample(example, new PlateOptions { Paper = paper }).Sheets.Length, 2, Most(example));
    }

    // In large print too each is on one page, upright or sideways, under its own title and not as a sheet of the cloth.
    [Theory, MemberData(nameof(Examples))]
    public void Every_excerpt_of_an_example_is_whole_on_a_page_in_large_print(string example)
    {
        var order = Planner.Plan(Plates.Example(example), Effort.Drawing);
        var options = new PlateOptions { LargePrint = true };
        var geometry = ChartGeometry.Scaled(order.Work, ChartPages.Readable(order.Work, options.Look));
        var titles = Excerpts.Of(order).Select(e => new ExcerptDrawing(geometry, order, e, options.Look, options.Levels).Title);
        var figures = PlateMaker.Make(order.Work, order, [], options).Sheets.SelectMany(s => s.Tags).Select(t => t.Alternate ?? "").ToList();
        Assert.All(titles, title => Assert.Single(figures, f => f.StartsWith($"{title}. ", StringComparison.Ordinal)));
    }

    private static IEnumerable<Mark> Deep(IEnumerable<Mark> marks) => marks.SelectMany(m => m is Inset inset ? Deep(inset.Marks) : [m]);

    private static void Explained(PlateDocument plate)
    {
        Sign[] stitches = [Sign.UpCable, Sign.DownCable, Sign.HalfStitch, Sign.Sample];
        var drawn = Deep(ChartPages.Drawings(plate).SelectMany(d => d.Drawing.Marks)).Select(m => m.Means).OfType<Sign>().ToHashSet();
        Assert.Equal(drawn.Order(), plate.Signs.Select(s => s.Sign).Except(stitches).Order());
        Assert.Equal(plate.Signs.Length, plate.Signs.Select(s => s.Words).Distinct().Count());
    }

    [Theory, MemberData(nameof(Examples))]
    public void Every_mark_of_the_chart_has_its_entry_in_the_key_and_every_entry_its_mark(string example)
    {
        foreach (var edition in Enum.GetValues<Edition>())
            foreach (var large in (bool[])[false, true]) Explained(Plates.OfExample(example, new PlateOptions { Edition = edition, LargePrint = large }));
    }

    [Fact]
    public void Every_mark_of_any_chart_has_its_entry() => Orders.Sample(order =>
    {
        if (order.Steps.Length > 0) Explained(PlateMaker.Make(order.Work, order, [], new PlateOptions { Edition = Edition.Learner }));
    }, iter: Long.Of(20, 400));

    [Theory, MemberData(nameof(Examples))]
    public void Every_step_of_a_band_is_numbered_on_the_learner_s_chart_where_it_begins(string example)
    {
        var plate = Plates.OfExample(example, new PlateOptions { Edition = Edition.Learner });
        var told = Deep(ChartPages.Drawings(plate).SelectMany(d => d.Drawing.Marks)).OfType<Lettering>().Select(l => l.Text).Where(t => t.StartsWith('B') && t[1..].All(char.IsAsciiDigit)).ToList();
        Assert.Equal(plate.Order.Bands.Steps.Index().Where(s => s.Item.First == 0).Select(s => FormattableString.Invariant($"B{s.Index + 1}")).Order(), told.Order());
    }

    // The steps of the second copy stood on no chart.
    [Fact]
    public void A_copy_on_other_rows_is_named_over_the_chart_of_the_first()
    {
        var plate = Plates.OfExample("gulls-turning");
        var copies = Excerpts.Of(plate.Order).SelectMany(e => e.Elsewhere).ToList();
        Assert.NotEmpty(copies);
        var words = string.Join(' ', plate.Sheets.SelectMany(s => Deep(s.Marks)).OfType<Lettering>().Select(l => l.Text));
        foreach (var copy in copies) Assert.Contains(FormattableString.Invariant($"steps {copy.First} to {copy.Last} {Math.Abs(copy.Lower) * plate.Work.Pleating.Gauge.CableRowsPerSpace} rows {(copy.Lower > 0 ? "lower" : "higher")}"), words, StringComparison.Ordinal);
    }

    // Two pairs of steps of one border were printed over each other.
    [Theory, MemberData(nameof(Examples))]
    public void No_words_of_the_strip_lie_over_others(string example)
    {
        var plate = Plates.OfExample(example);
        foreach (var (_, drawing) in ChartPages.Drawings(plate).Where(d => d.Title == "the whole at a glance"))
        {
            var boxes = Deep(drawing.Marks).OfType<Lettering>().Where(l => l.Style.Face == Face.TextBold).Select(l => (l.Text, Box: new Box(
                l.At.X - Typeface.Width(l.Text, l.Style) * (l.Anchor switch { Anchor.Start => 0, Anchor.Middle => 0.5, _ => 1 }), l.At.Y - Typeface.CapHeight(l.Style), Typeface.Width(l.Text, l.Style), Typeface.CapHeight(l.Style)).Grown(-0.05))).ToList();
            foreach (var (i, one) in boxes.Index())
                foreach (var other in boxes.Skip(i + 1)) Assert.False(Meet(one.Box, other.Box), $"{one.Text} {other.Text}");
        }
    }

    [Theory, MemberData(nameof(Examples))]
    public void Every_writer_has_every_section(string example)
    {
        foreach (var edition in Enum.GetValues<Edition>())
        {
            var plate = Plates.OfExample(example, new PlateOptions { Edition = edition });
            var (text, html) = (PlainTextWriter.Write(plate), HtmlWriter.Write(plate));
            foreach (var section in PlateSections.Of(plate))
            {
                Assert.Contains($"\n{section.Heading}\n{new string('-', section.Heading.Length)}\n", text, StringComparison.Ordinal);
                Assert.Contains($"<section id=\"{section.Id}\"", html, StringComparison.Ordinal);
                if (!section.Spare) Assert.Contains(plate.Sheets.SelectMany(s => s.Bookmarks), b => b.Title.StartsWith(section.Heading, StringComparison.Ordinal));
            }
        }
    }
}

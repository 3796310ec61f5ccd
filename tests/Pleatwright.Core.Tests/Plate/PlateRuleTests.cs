using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Parts;
using Pleatwright.Plate.Writers;
using Pleatwright.Tests.Chart.Stitches;
using Pleatwright.Tests.Endurance;
using Pleatwright.Tests.Order;

namespace Pleatwright.Tests.Plate;

/// <summary>What a second hostile reader stopped at on the plates.</summary>
public partial class PlateRuleTests
{
    private static Gen<WorkingOrder> Orders => Gen.OneOf(SomeWorks.Any, OrderGen.Pieces.Select(Work.Lay), BandGen.Pieces.Select(Work.Lay), CopiesTests.Pieces.Select(p => Work.Lay(p))).Select(work => Planner.Plan(work, Effort.Drawing));

    public static TheoryData<string> Examples => ExcerptTests.Examples;

    private static IEnumerable<Mark> Deep(IEnumerable<Mark> marks) => marks.SelectMany(m => m is Inset inset ? Deep(inset.Marks) : [m]);

    // Sides turned with the work, and the gathering row's sign did not.
    [Fact]
    public void A_gathering_row_s_sign_turns_with_the_work_as_sides_do() => Orders.Sample(order =>
    {
        var perSpace = order.Work.Pleating.Gauge.CableRowsPerSpace;
        foreach (var block in Directions.Table(order, LevelWords.UpDown).Blocks.Where(b => b.Columns.Contains("at") && b.Columns[0] == "step"))
            foreach (var line in block.Lines)
            {
                var at = Signed().Match(line.Cells[block.Columns.IndexOf("at")]);
                var (row, g) = (line.Step!.Row.Index, int.Parse(at.Groups["g"].Value, CultureInfo.InvariantCulture));
                var below = row - (g - 1) * perSpace; // on the chart
                Assert.Equal(line.Step.Turned ? -below : below, at.Groups["n"].Success ? int.Parse(at.Groups["n"].Value, CultureInfo.InvariantCulture) : 0);
            }
    }, iter: Long.Of(60, 1000));

    [GeneratedRegex(@"^G(?<g>\d+)(?<n>[+-]\d+)?$")]
    private static partial Regex Signed();

    [Fact]
    public void The_centres_of_figures_alike_are_told_before_their_lines() => CopiesTests.Pieces.Select(p => Planner.Plan(Work.Lay(p), Effort.Drawing)).Sample(order =>
    {
        var blocks = Directions.Table(order, LevelWords.UpDown).Blocks;
        foreach (var (i, block) in blocks.Index().Where(b => b.Item.Columns.Contains("its centre")))
        {
            Assert.True(i + 1 < blocks.Length);
            Assert.Equal("step", blocks[i + 1].Columns[0]);
            Assert.Equal(block.Lines[0].Step!.Number, blocks[i + 1].Lines[0].Step!.Number);
            Assert.StartsWith("Find the centre of each", Assert.Single(block.Notes), StringComparison.Ordinal);
        }
    }, iter: Long.Of(40, 600));

    [Fact]
    public void A_thread_that_goes_further_than_it_may_lie_loose_is_said_to_be_cabled_across()
    {
        var seen = 0;
        Gen.OneOf(OrderGen.Pieces.Select(Work.Lay), SomeWorks.Any).Select(work => Planner.Plan(work, Effort.Drawing)).Sample(order =>
        {
            foreach (var block in Directions.Table(order, LevelWords.UpDown).Blocks.Where(b => b.Columns.Contains("carry")))
                foreach (var line in block.Lines.Where(l => l.Step is { Starts: StartKind.Carry }))
                {
                    Assert.Equal(Math.Abs(line.Step!.CarriedPleats) > 3, line.Cells[block.Columns.IndexOf("carry")].EndsWith(", cabled", StringComparison.Ordinal));
                    if (Math.Abs(line.Step.CarriedPleats) > 3) Interlocked.Increment(ref seen);
                }
            foreach (var told in Directions.Write(order, LevelWords.UpDown).Where(d => d.Kind == DirectionKind.Step))
                if (told.Step is { Starts: StartKind.Carry } step) Assert.Equal(Math.Abs(step.CarriedPleats) > 3, told.Text.Contains("cabled across", StringComparison.Ordinal));
        }, iter: Long.Of(60, 1000));
        Assert.True(seen > 0);
    }

    // A ring was where a thread is tied off, where the needle comes up, and on the back; a dot where it goes in, and where a thread starts.
    [Theory, MemberData(nameof(Examples))]
    public void One_mark_has_one_meaning_on_charts_drawings_and_back(string example)
    {
        var plate = Plates.OfExample(example, new PlateOptions { Edition = Edition.Learner });
        foreach (var drawn in plate.Published.Stitches(LevelWords.UpDown, Look.Booklet))
        {
            var marks = drawn.Drawing.Marks.OfType<Shape>().ToList();
            Assert.DoesNotContain(marks, s => IsRound(s.Outline) && s.Pen is { Width: 0.25 } && s.Fill == Pleatwright.Thread.Colour.White);
            Assert.Contains(marks, s => s.Outline.Spots.Length == 4 && s.Outline.Strokes.Count(k => k == Stroke.Curve) == 0 && s.Fill == Pleatwright.Thread.Colour.White);
        }
        Assert.DoesNotMatch(@"\bdot\b|\bring\b", StitchDrawings.Lead);
        var words = BackView.Words(plate.Order);
        Assert.DoesNotMatch(@"\bdot\b", words);
        Assert.Contains(FormattableString.Invariant($"from {plate.Work.Pleating.Pleats} at the left down to 1"), words, StringComparison.Ordinal);
    }

    private static bool IsRound(Outline outline) => outline.Strokes.Count(k => k == Stroke.Curve) == 4 && !outline.Strokes.Contains(Stroke.Line);

    private static List<Spot> Lozenges(DrawnStitch drawn) => [.. drawn.Drawing.Marks.OfType<Shape>().Where(s => s.Outline.Spots.Length == 4 && !s.Outline.Strokes.Contains(Stroke.Curve) && s.Fill == Pleatwright.Thread.Colour.White)
        .Select(s => new Spot(s.Outline.Spots.Average(p => p.X), s.Outline.Spots.Average(p => p.Y)))];

    [Fact]
    public void A_stitch_is_drawn_from_where_the_needle_first_comes_up_in_the_valley_and_a_half_stitch_from_where_its_thread_comes()
    {
        foreach (var example in (string[])["harbour-wall", "flawed-kite"])
            foreach (var drawn in Plates.OfExample(example).Published.Stitches(LevelWords.UpDown, Look.Booklet))
            {
                if (drawn.Name is "Cable" or "Outline" or "Wheat" or "Backsmocking")
                    Assert.Contains(Lozenges(drawn), at => Math.Abs(at.X - StitchDrawings.Width / 6) < 0.01); // between the first two of six pleats
                if (drawn.Name == "Half stitch") Assert.Equal(2, Lozenges(drawn).Count); // those of C and E lie on each other
            }
    }

    // White plates stood in the line where both touch, as if there were a gap.
    [Fact]
    public void No_letter_stands_between_two_lines_that_touch()
    {
        var wheat = Plates.OfExample("harbour-wall").Published.Stitches(LevelWords.UpDown, Look.Booklet).Single(d => d.Name == "Wheat");
        var bars = wheat.Drawing.Marks.OfType<Shape>().Where(s => s.Pen is { Round: true, Width: > 1 }).Select(s => s.Outline).ToList();
        var (top, bottom) = (bars.Min(b => b.Spots.Min(p => p.Y)), bars.Max(b => b.Spots.Max(p => p.Y)));
        var plates = wheat.Drawing.Marks.OfType<Shape>().Where(s => s.Fill == Pleatwright.Thread.Colour.White && s.Pen is null).ToList();
        Assert.NotEmpty(plates);
        Assert.All(plates, plate => Assert.False(plate.Outline.Spots.Average(p => p.Y) is var y && y > (top + bottom) / 2 && y < bottom));
    }

    [Theory, MemberData(nameof(Examples))]
    public void Every_colour_way_names_every_thread_s_colour_in_every_edition(string example)
    {
        foreach (var (edition, large) in ((Edition, bool)[])[(Edition.Plate, false), (Edition.Plate, true), (Edition.Learner, false), (Edition.Learner, true)])
        {
            var plate = Plates.OfExample(example, new PlateOptions { Edition = edition, LargePrint = large });
            var printed = string.Join(' ', plate.Sheets.SelectMany(s => s.Marks).OfType<Lettering>().Select(l => l.Text));
            var (text, html) = (Regex.Replace(PlainTextWriter.Write(plate), @"\s+", " "), HtmlWriter.Write(plate));
            foreach (var way in plate.Published.ColourWays)
            {
                var said = MaterialsPart.Say(way);
                Assert.All(way.Threads, t => Assert.Contains($"{t.Key} {t.Word}", said, StringComparison.Ordinal));
                Assert.Contains(said, printed, StringComparison.Ordinal);
                Assert.Contains(said, text, StringComparison.Ordinal);
                Assert.Contains(said, html, StringComparison.Ordinal);
            }
        }
    }

    [Theory, MemberData(nameof(Examples))]
    public void The_cover_makes_no_claim_of_a_check_and_keeps_a_photograph_s_place_only_where_the_piece_names_one(string example)
    {
        var plate = Plates.OfExample(example);
        var cover = plate.Sheets[0].Marks.OfType<Lettering>().Select(l => l.Text).ToList();
        Assert.DoesNotContain(cover, t => t.StartsWith("Checked", StringComparison.Ordinal));
        if (plate.IsProved) Assert.Contains(PrintedWords.Proved, string.Join(' ', plate.Sheets.SelectMany(s => s.Marks).OfType<Lettering>().Select(l => l.Text)), StringComparison.Ordinal);
        Assert.Equal(plate.Work.Piece.Credit.Photograph.Length > 0, cover.Any(t => t.StartsWith("photograph: ", StringComparison.Ordinal)));
    }

    [Theory, MemberData(nameof(Examples))]
    public void Every_example_names_its_designer_and_its_size(string example)
    {
        var piece = Plates.Example(example).Piece;
        Assert.NotEmpty(piece.Credit.Designer);
        Assert.NotEmpty(piece.SizeName);
    }

    [Fact]
    public void Accents_of_a_row_are_worked_the_way_the_hand_goes()
    {
        var piece = Plates.Example("harbour-wall").Piece;
        foreach (var hand in Enum.GetValues<Hand>())
        {
            var order = Planner.Plan(Work.Lay(piece with { Working = piece.Working with { Hand = hand } }), Effort.Drawing);
            foreach (var row in order.Bands.Accents.GroupBy(a => a.Laid.Index))
            {
                var valleys = row.Select(a => a.Laid.Valley.Number).ToList();
                Assert.Equal(hand == Hand.Left ? valleys.OrderDescending() : valleys.Order(), valleys);
            }
        }
    }

    // Half a brick of the tag stood at the edge of the left hand's kite.
    [Fact]
    public void No_stitch_of_another_figure_is_cut_at_the_side_of_an_excerpt() => Orders.Sample(order =>
    {
        var geometry = ChartGeometry.Scaled(order.Work, 2);
        foreach (var excerpt in Excerpts.Of(order).Where(e => e.Title.Length == 0 && !e.Steps.IsEmpty))
        {
            var shown = new ExcerptDrawing(geometry, order, excerpt, Look.Booklet, LevelWords.UpDown).Shown;
            var own = Excerpts.BoxOf(excerpt.Steps);
            Assert.True(shown.FirstPleat <= own.FirstPleat && shown.LastPleat >= own.LastPleat);
            for (var y = Math.Max(0, shown.FirstRow); y <= Math.Min(shown.LastRow, order.Work.CableRows - 1); y++)
                foreach (var run in order.Work.RunsIn(new CableRow(y)))
                {
                    var (cutLeft, cutRight) = (run.FirstPleat.Number < shown.FirstPleat && run.LastPleat.Number >= shown.FirstPleat, run.FirstPleat.Number <= shown.LastPleat && run.LastPleat.Number > shown.LastPleat);
                    Assert.False((cutLeft && run.LastPleat.Number < own.FirstPleat) || (cutRight && run.FirstPleat.Number > own.LastPleat));
                }
        }
    }, iter: Long.Of(60, 1000));

    // Where the last column stands beneath, a line has a second row in the page's tables, under the second row of names.
    [Theory, MemberData(nameof(Examples))]
    public void A_table_in_two_rows_has_each_line_s_last_cell_in_a_row_beneath_it(string example)
    {
        var plate = Plates.OfExample(example);
        var tables = XDocument.Parse(HtmlWriter.Write(plate)).Root!.Descendants("table").Where(t => t.Attribute("class")?.Value == "runs").ToList();
        var blocks = plate.Table.Blocks.Where(b => b.Lines.Length > 0).ToList();
        Assert.Equal(blocks.Count, tables.Count);
        foreach (var (block, table) in blocks.Zip(tables).Where(p => p.First.LastBeneath))
        {
            var head = table.Element("thead")!.Elements("tr").ToList();
            Assert.Equal(2, head.Count);
            Assert.Equal(block.Columns[^1], Assert.Single(head[1].Elements()).Value);
            var rows = table.Element("tbody")!.Elements("tr").ToList();
            Assert.Equal(2 * block.Lines.Length, rows.Count);
            foreach (var (i, line) in block.Lines.Index())
            {
                Assert.Equal("2", rows[2 * i].Elements().First().Attribute("rowspan")!.Value);
                var cell = Assert.Single(rows[2 * i + 1].Elements());
                Assert.Equal(line.Cells[^1], cell.Value);
                Assert.Equal((block.Columns.Length - 2).ToString(CultureInfo.InvariantCulture), cell.Attribute("colspan")!.Value);
            }
        }
        if (example == "harbour-wall") Assert.Contains(blocks, b => b.LastBeneath);
    }

    // What begins in the middle of a band stands over its own half.
    [Fact]
    public void A_band_that_begins_in_the_middle_is_labelled_over_its_own_half()
    {
        var order = Planner.Plan(Plates.Example("harbour-wall"), Effort.Drawing);
        var geometry = ChartGeometry.Scaled(order.Work, 2);
        var halved = 0;
        foreach (var excerpt in Excerpts.Of(order).Where(e => !e.Bands.IsEmpty))
        {
            var steps = new StepMarks(geometry, order, excerpt.Steps, excerpt.Window, Look.Booklet) { Bands = excerpt.Bands };
            var labels = steps.Draw().OfType<Lettering>().Where(l => l.Text.StartsWith('B')).ToList();
            foreach (var (number, band) in excerpt.Bands.Where(b => b.Step.Thread is BandThread.NewWithTail or BandThread.Tail))
            {
                halved++;
                var label = Assert.Single(labels, l => l.Text == FormattableString.Invariant($"B{number}"));
                var onward = band.End.To.Pleat.Number >= band.Begin.From.Pleat.Number;
                var begins = (band.Begin.From.Pleat.Number - (onward ? 1 : 0)) * geometry.Pitch;
                var middle = label.At.X + Typeface.Width(label.Text, label.Style) / 2;
                Assert.True(onward ? middle > begins : middle < begins, $"B{number} at {middle}, begun at {begins}");
            }
        }
        Assert.True(halved > 2);
    }

    // Pleats of figures, between figures and beside them make up the cloth; what stands above is from centre to centre.
    [Theory, MemberData(nameof(Examples))]
    public void The_strip_s_measures_add_up_to_the_cloth(string example)
    {
        var plate = Plates.OfExample(example);
        var work = plate.Work;
        foreach (var (_, drawing) in ChartPages.Drawings(plate).Where(d => d.Title == "the whole at a glance"))
        {
            var boxes = plate.Order.Steps.GroupBy(s => plate.Order.Parts.InOrder[plate.Order.Parts.Of(s.RunIndex)].Figure).Select(g => Excerpts.BoxOf(g)).Where(b => b.Pleats * 3 <= work.Pleating.Pleats * 2).OrderBy(b => b.FirstPleat).ToList();
            if (boxes.Count == 0 || boxes.Zip(boxes.Skip(1)).Any(p => p.First.LastPleat >= p.Second.FirstPleat)) continue; // they are measured along several lines
            var frame = drawing.Marks.OfType<Inset>().First().Clip!.Value;
            var above = drawing.Marks.OfType<Lettering>().Where(l => l.At.Y < frame.Y && l.Anchor == Anchor.Middle && double.TryParse(l.Text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double _)).ToList();
            var lines = above.GroupBy(l => Math.Round(l.At.Y / 3)).ToList();
            var wanted = new List<int>();
            var at = 0;
            foreach (var box in boxes)
            {
                wanted.AddRange([box.FirstPleat - 1 - at, box.Pleats]);
                at = box.LastPleat;
            }
            wanted.Add(work.Pleating.Pleats - at);
            Assert.Equal(work.Pleating.Pleats, wanted.Sum());
            var told = above.Select(l => l.Text).ToList();
            var centres = boxes.Select(b => (b.FirstPleat - 1 + b.LastPleat) / 2.0).ToList();
            foreach (var count in boxes.Select(b => b.Pleats).Distinct()) Assert.Contains(count.ToString(CultureInfo.InvariantCulture), told);
            foreach (var (a, b) in centres.Zip(centres.Skip(1))) Assert.Contains((b - a).ToString("0.#", CultureInfo.InvariantCulture), told);
            // none is told that is no measure
            var may = wanted.Select(w => w.ToString(CultureInfo.InvariantCulture)).Concat(centres.Zip(centres.Skip(1)).Select(p => (p.Second - p.First).ToString("0.#", CultureInfo.InvariantCulture))).ToHashSet();
            var steps = plate.Order.Steps.Select(s => s.Number.ToString(CultureInfo.InvariantCulture)).ToHashSet();
            Assert.All(told.Where(t => !steps.Contains(t)), t => Assert.Contains(t, may));
        }
    }
}

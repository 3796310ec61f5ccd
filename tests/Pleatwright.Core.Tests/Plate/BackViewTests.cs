using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Parts;
using Pleatwright.Plate.Sections;
using Pleatwright.Tests.Chart.Stitches;

namespace Pleatwright.Tests.Plate;

public class BackViewTests
{
    [Fact]
    public void A_plate_with_backsmocking_tells_its_thread_and_shows_the_back()
    {
        var plate = Plates.Of(Work.Lay(BandGen.Alone(BandGen.Band("outline"), 40)));
        var group = Assert.Single(plate.Materials, g => g.Heading == "Backsmocking");
        Assert.Contains("195 cables along 5 gathering rows", group.Lines[0].Words, StringComparison.Ordinal);
        Assert.Contains(PlateSections.Of(plate), s => s.Id == PlateSections.BackId);
        Assert.Contains("\nThe back\n", Pleatwright.Plate.Writers.PlainTextWriter.Write(plate), StringComparison.Ordinal);
        Assert.Contains("id=\"back\"", Pleatwright.Plate.Writers.HtmlWriter.Write(plate), StringComparison.Ordinal);
        Assert.Equal("First, on the back", plate.Directions[1].Text);
    }

    [Fact]
    public void Without_anything_on_the_back_there_is_no_such_page()
    {
        var plate = Plates.Of(Work.Lay(BandGen.Alone(BandGen.Band("outline"), 40) with { Back = Backsmocking.None }));
        Assert.DoesNotContain(PlateSections.Of(plate), s => s.Id == PlateSections.BackId);
        Assert.DoesNotContain(plate.Materials, g => g.Heading == "Backsmocking");
    }

    [Fact]
    public void The_view_is_as_wide_as_asked() => BandGen.Pieces.Sample(piece =>
    {
        var drawing = BackView.Draw(Planner.Plan(Work.Lay(piece)), 170, Look.Booklet);
        Assert.Equal(170, drawing.View.Width, 6);
        Assert.NotEmpty(drawing.Marks);
    }, iter: 40);

    [Fact]
    public void The_strips_of_the_page_show_every_pleat_and_stay_on_the_paper() =>
        Gen.Select(Gen.Double[1, 40], Gen.Int[2, 40], Gen.Bool.Select(b => b ? Paper.A4 : Paper.Letter), Gen.Bool).Sample((width, rows, paper, large) =>
        {
            var piece = BandGen.Alone(BandGen.Band("outline"), 40);
            piece = piece with { Bands = [], Cloth = new ClothPlan(new Panel(Length.FromInches(width)), Gauge.Common, rows) };
            var work = Work.Lay(piece);
            var inner = Page.InnerOf(paper);
            var seen = new HashSet<int>();
            double tall = 0;
            foreach (var strip in BackView.Strips(Planner.Plan(work), inner.Width, inner.Height - 40, large ? Look.LargePrint : Look.Booklet, easy: !large))
            {
                Assert.True(strip.View.Width <= inner.Width + 0.01);
                tall += strip.View.Height;
                var numbers = strip.Marks.OfType<Lettering>().Where(l => l.Anchor == Anchor.Middle).Select(l => int.Parse(l.Text, System.Globalization.CultureInfo.InvariantCulture)).ToList();
                for (var pleat = numbers.Min(); pleat <= numbers.Max(); pleat++) seen.Add(pleat);
            }
            Assert.True(tall <= inner.Height, $"{tall} mm");
            Assert.Equal(work.Pleating.Pleats, seen.Count);
        }, iter: 25);

    [Fact]
    public void A_plate_of_bands_and_figures_has_one_chart_and_one_key()
    {
        var plate = Plates.OfExample("harbour-wall");
        Assert.Equal(plate.Work.Piece.Threads.Select(t => t.Key), plate.Threads.Select(t => t.Thread.Key));
        foreach (var stitch in plate.Work.Bands.Select(b => b.Stitch.Name).Distinct())
            Assert.Contains(plate.Signs, s => s.Words.StartsWith(stitch, StringComparison.OrdinalIgnoreCase));
        Assert.Contains(plate.Threads, t => t.Stitches == "677 stitches of bands");
        Assert.DoesNotContain(plate.Directions, d => d.Text.Contains("  ", StringComparison.Ordinal));
    }
}

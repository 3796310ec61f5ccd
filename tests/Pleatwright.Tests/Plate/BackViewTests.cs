using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Parts;
using Pleatwright.Proof;
using Pleatwright.Tests.Chart.Stitches;

namespace Pleatwright.Tests.Plate;

public class BackViewTests
{
    private static PlateDocument PlateOf(Piece piece)
    {
        var work = Work.Lay(piece);
        return PlateMaker.Make(work, Planner.Plan(work), Proofreading.Read(work), new PlateOptions());
    }

    [Fact]
    public void A_plate_with_backsmocking_tells_its_thread_and_shows_the_back()
    {
        var plate = PlateOf(BandGen.Alone(BandGen.Band("outline"), 40));
        var group = Assert.Single(plate.Materials, g => g.Heading == "Backsmocking");
        Assert.Contains("195 cables along 5 gathering rows", group.Lines[1].Words, StringComparison.Ordinal);
        Assert.Single(plate.Sheets, s => s.Name == "The back");
        Assert.Equal("First, on the back", plate.Directions[1].Text);
    }

    [Fact]
    public void Without_anything_on_the_back_there_is_no_such_page()
    {
        var plate = PlateOf(BandGen.Alone(BandGen.Band("outline"), 40) with { Back = Backsmocking.None });
        Assert.DoesNotContain(plate.Sheets, s => s.Name == "The back");
        Assert.DoesNotContain(plate.Materials, g => g.Heading == "Backsmocking");
    }

    [Fact]
    public void The_view_is_as_wide_as_asked_and_stays_on_its_page() => BandGen.Pieces.Sample(piece =>
    {
        var drawing = BackView.Draw(Planner.Plan(Work.Lay(piece)), 170, Look.Booklet);
        Assert.Equal(170, drawing.View.Width, 6);
        Assert.NotEmpty(drawing.Marks);
    }, iter: 40);

    [Fact]
    public void A_plate_of_bands_and_figures_has_one_chart_and_one_key()
    {
        var plate = PlateOf(Pleatwright.Files.PieceReader.Read(File.ReadAllBytes(Repository.Path("examples", "harbour-wall.piece.json"))));
        Assert.Equal(plate.Work.Piece.Threads.Select(t => t.Key), plate.Threads.Select(t => t.Thread.Key));
        foreach (var stitch in plate.Work.Bands.Select(b => b.Stitch.Name).Distinct())
            Assert.Contains(plate.Signs, s => s.Words.StartsWith(stitch, StringComparison.OrdinalIgnoreCase));
        Assert.Contains(plate.Threads, t => t.Stitches == "497 stitches of bands");
        Assert.DoesNotContain(plate.Directions, d => d.Text.Contains("  ", StringComparison.Ordinal));
    }
}

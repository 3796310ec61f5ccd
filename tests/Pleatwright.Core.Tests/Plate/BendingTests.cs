using Pleatwright.Cloth;
using Pleatwright.Plate;
using Pleatwright.Plate.Parts;

namespace Pleatwright.Tests.Plate;

/// <summary>The stitched picture laid on its form.</summary>
public class BendingTests
{
    [Fact]
    public void A_bishop_keeps_between_the_arcs_of_its_first_and_last_row()
    {
        var work = Plates.Example("quay-bishop");
        var drawing = StitchedPicture.Draw(work, 120);
        Assert.Equal(drawing.View.Width, drawing.View.Height, 6); // a full turn is as high as it is wide
        var round = (Round)work.Piece.Cloth.Form;
        var window = StitchedPicture.Cloth(work);
        double row = work.Pleating.Gauge.CableRowHeight.Millimetres, outer = round.NeckRadius.Millimetres + (window.LastRow + 0.5) * row;
        var times = 60 / outer;
        double inner = (round.NeckRadius.Millimetres + (window.FirstRow - 0.5) * row) * times;
        // The pleats are filled shapes; every spot of theirs lies in the ring.
        foreach (var spot in drawing.Marks.OfType<Shape>().Where(s => s.Fill is not null).SelectMany(s => s.Outline.Spots))
            Assert.InRange(Math.Sqrt(spot.X * spot.X + spot.Y * spot.Y), inner - 0.01, 60.01);
    }

    [Fact]
    public void A_ball_keeps_within_its_circle()
    {
        var drawing = StitchedPicture.Draw(Plates.Example("net-float"), 90);
        Assert.Equal((90.0, 90.0), (Math.Round(drawing.View.Width, 6), Math.Round(drawing.View.Height, 6)));
        // First comes the circle itself, whose handles reach beyond it.
        foreach (var spot in drawing.Marks.OfType<Shape>().Skip(1).SelectMany(s => s.Outline.Spots))
            Assert.InRange(Math.Sqrt(spot.X * spot.X + spot.Y * spot.Y), 0, 45.001);
    }

    [Fact]
    public void A_panel_lies_flat()
    {
        var drawing = StitchedPicture.Draw(Plates.Example("harbour-morning"), 90);
        Assert.Equal(90, drawing.View.Width, 6);
        Assert.True(drawing.View.Height < 40);
    }
}

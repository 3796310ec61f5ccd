using Pleatwright.Measure;
using Pleatwright.Plate;
using Pleatwright.Plate.Parts;

namespace Pleatwright.Tests.Plate;

public class FinishingTests
{
    private static string[] Of(string example) => [.. Plates.OfExample(example, new PlateOptions { Units = UnitSystem.Inches }).Materials.Single(m => m.Heading == "Finishing").Lines.Select(l => l.Words)];

    [Fact]
    public void Of_a_panel() => Assert.Equal(
    [
        "Press a damp white cloth on an end of each thread: a colour that stains it is never steamed.",
        "Pin to 11 in by 3 in, first gathering row to last, the rows straight and square to the pleats.",
        "Steam without pressing, and let it dry pinned.",
        "Once it is dry take the gathering threads out.",
        "The holding rows stay in until the piece is sewn in.",
    ], Of("harbour-morning"));

    [Fact]
    public void A_bishop_is_pinned_to_arcs_and_a_ball_drawn_over_its_core()
    {
        Assert.Equal("Pin to arcs: 11 in along gathering row 1, at a radius of 1 3/4 in.", Of("quay-bishop")[1]);
        Assert.Equal("Sew the cut edges together from pole to pole, pull it over a ball 3 in across and draw up both ends.", Of("net-float")[1]);
    }

    // Colours are tested before anything is damp or hot, and no thread that holds the pleats comes out before they are set.
    [Fact]
    public void The_steps_come_in_the_order_they_are_done()
    {
        var cloth = Plates.Example("harbour-morning").Piece.Cloth;
        Assert.Equal([FinishingStep.TestColours, FinishingStep.Block, FinishingStep.Steam, FinishingStep.TakeOutGathering, FinishingStep.KeepHoldingRows], Finishing.Of(cloth));
        Assert.DoesNotContain(FinishingStep.KeepHoldingRows, Finishing.Of(cloth with { HoldingRowsAbove = 0, HoldingRowsBelow = 0 }));
        Assert.Contains(FinishingStep.KeepHoldingRows, Finishing.Of(cloth with { HoldingRowsAbove = 0, HoldingRowsBelow = 1 }));
    }

    [Fact]
    public void Materials_name_the_kind_of_cloth_and_the_needles()
    {
        var materials = Plates.OfExample("harbour-wall", new PlateOptions { Units = UnitSystem.Inches }).Materials;
        Assert.Contains(new MaterialLine("Kind", "Batiste, lawn or voile, commonly gathered 4 to 5 to 1."), materials[0].Lines);
        Assert.Contains(materials[1].Lines, l => l.Words == "An embroidery needle whose eye takes the strands without dragging: commonly size 7 for 4 strands, size 8 for 3 strands, size 9 or 10 for 2 strands.");
    }
}

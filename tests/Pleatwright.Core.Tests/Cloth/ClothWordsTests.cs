using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;

namespace Pleatwright.Tests.Cloth;

public class ClothWordsTests
{
    private static string[] Words(string example) =>
        [.. ClothWords.Of(new PleatingPlan(PieceReader.Read(File.ReadAllBytes(Repository.Path("examples", example))).Cloth), UnitSystem.Inches)
            .Select(l => $"{l.Label}: {l.Words}")];

    [Fact]
    public void Of_a_panel() => Assert.Equal(
    [
        "Cloth: cut 43 in wide and 4 1/8 in deep for the gathered part alone, from cloth 44 in wide",
        "Finished: 11 in wide, 3 in from the first gathering row to the last",
        "Pleats: 176, and 3 seam pleats at each side: 182 to gather; centre valley 88",
        "Gauge: 1/4 in of cloth to a pleat, dots 1/8 in apart; fullness 3.78 to 1",
        "Pitch: 16 pleats an inch",
        "Rows: gather 11: 9 gathering rows 3/8 in apart, 1 holding above and 1 below",
        ": 5 cable rows in a space, 41 in all",
    ], Words("harbour-morning.piece.json"));

    [Fact]
    public void Of_a_bishop() => Assert.Equal(
    [
        "Cloth: panels 84 in wide together, 3 3/8 in deep for the gathered part alone, from 2 widths of cloth 44 in wide",
        "Panels: right back: cut 13 in, 48 pleats, 1 to 48",
        ": right sleeve: cut 16 in, 60 pleats, 49 to 108",
        ": front: cut 26 in, 102 pleats, 109 to 210",
        ": left sleeve: cut 16 in, 60 pleats, 211 to 270",
        ": left back: cut 13 in, 48 pleats, 271 to 318",
        ": left and right are the wearer’s",
        "Kept out: 3/8 in at each edge of a join",
        "Joins: in valleys 48, 108, 210, 270",
        "Finished: neck 11 in along gathering row 1, sweep 360°, 2 1/4 in from the first gathering row to the last",
        "Pleats: 318, and 3 seam pleats at each side: 324 to gather; centre valley 159",
        "Gauge: 1/4 in of cloth to a pleat, dots 1/8 in apart; fullness 7.23 to 1 at the neck",
        "Pitch: 28.9 pleats an inch at gathering row 1, 12.7 pleats an inch at gathering row 7; blocked on arcs of radius 1 3/4 in to 4 in",
        "Rows: gather 9: 7 gathering rows 3/8 in apart, 1 holding above and 1 below",
        ": 5 cable rows in a space, 31 in all",
        "Passes: one pass of 9 rows through a pleater of 16",
    ], Words("quay-bishop.piece.json"));

    [Fact]
    public void Of_a_ball() => Assert.Contains("Pitch: 15.9 pleats an inch at the equator, 29.5 pleats an inch at gathering row 1, 29.5 pleats an inch at gathering row 9", Words("net-float.piece.json"));
}

using Pleatwright.Files;

namespace Pleatwright.Tests.Files;

/// <summary>Whatever a maker may say in a file is in it still when it has been read and written.</summary>
public class NothingDroppedTests
{
    [Fact]
    public void Every_key_that_says_something_unusual_is_written_again()
    {
        const string cloth = """
            "form": "panel", "finishedWidth": "4 in", "seamPleats": 5, "gatheringRows": 3, "holdingRows": [2, 3], "colour": "#102030", "selvedges": "1 in", "ravelling": "2 mm", "seam": "11 mm",
            "pleater": { "rows": 21, "overlap": 2 }, "seamAbove": "6 mm", "lengthBelow": "7 cm", "seamBelow": "8 mm", "soldBy": "25 cm", "fabricWidth": "91 cm"
            """;
        const string text = $$"""
            { "pleatwright": 1, "title": "All of it", "cloth": { {{cloth}} }, "threads": { "a": { "name": "sail red", "colour": "#b3202c", "strands": 2, "tex": 31, "strandsInSkein": 5, "skein": "7 m", "note": "from the chest" } },
              "figures": { "f": { "rows": ["aa"], "square": true, "half": [ { "row": 0, "end": "left" } ] } },
              "place": [ { "figure": "f", "centre": 9, "gatheringRow": 2, "figureRow": 0, "mirror": true, "flip": true, "repeat": { "count": 2, "every": 9 } } ],
              "back": "gaps", "phase": "odd", "size": "middling",
              "working": { "way": "fewest starts", "workingLength": "44 cm", "tails": "13 cm", "hand": "left", "parkedThreads": 2, "threadFactor": 1.25 } }
            """;
        var again = PieceWriter.Write(PieceReader.Read(text)).Replace(" ", "", StringComparison.Ordinal).Replace("\n", "", StringComparison.Ordinal);
        foreach (var said in (string[])["\"phase\":\"odd\"", "\"soldBy\":\"25cm\"", "\"selvedges\":\"1in\"", "\"ravelling\":\"2mm\"", "\"seam\":\"11mm\"", "\"rows\":21,\"overlap\":2", "\"seamAbove\":\"6mm\"",
            "\"lengthBelow\":\"7cm\"", "\"seamBelow\":\"8mm\"", "\"fabricWidth\":\"91cm\"", "\"seamPleats\":5", "\"tex\":31", "\"strandsInSkein\":5", "\"skein\":\"7m\"", "\"note\":\"fromthechest\"", "\"square\":true",
            "\"end\":\"left\"", "\"mirror\":true", "\"flip\":true", "\"count\":2,\"every\":9", "\"back\":\"gaps\"", "\"size\":\"middling\"", "\"way\":\"feweststarts\"", "\"workingLength\":\"44cm\"", "\"tails\":\"13cm\"",
            "\"hand\":\"left\"", "\"parkedThreads\":2", "\"threadFactor\":1.25", "\"colour\":\"#102030\"", "\"strands\":2"])
            Assert.Contains(said, again, StringComparison.Ordinal);
    }
}

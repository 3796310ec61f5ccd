using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;

namespace Pleatwright.Tests.Chart;

public class SizeTableTests
{
    private static string Text(string sizes, string form = "\"form\": \"panel\", \"finishedWidth\": \"11 in\"", string gathering = "5") => $$"""
        { "pleatwright": 1, "title": "Sizes",
          "cloth": { {{form}}, "gatheringRows": {{gathering}} },
          "threads": { "r": { "colour": "#b3202c" } },
          "figures": { "buoy": { "rows": ["..rr..", ".rrrr.", "rrrrrr"] }, "bar": { "rows": ["rrrrrrrrrrrrrrrr"] } },
          "place": [ { "figure": "buoy", "gatheringRow": 2, "repeat": { "count": 3, "every": 36 } },
                     { "figure": "bar", "centre": 100, "gatheringRow": 4 } ],
          "bands": [ { "stitch": "cable", "gatheringRow": 5, "thread": "r" } ],
          "sizes":
        {{sizes}} }
        """;

    [Fact]
    public void Sizes_of_a_panel_worked_by_hand()
    {
        var table = SizeTable.Of(PieceReader.Read(Text("""[ { "name": "small", "finishedWidth": "8 in" }, { "name": "large", "finishedWidth": "18 in", "gatheringRows": 6 }, { "name": "tiny", "finishedWidth": "5 in", "gatheringRows": 3 } ]""")));
        Assert.Equal(["", "small", "large", "tiny"], table.Select(l => l.Name));
        Assert.Equal([132, 96, 216, 60], table.Select(l => l.Pleating!.Pleats));
        Assert.Equal([34.5, 25.5, 55.5, 16.5], table.Select(l => Math.Round(l.Pleating!.CutWidth.Inches, 9)));

        // The design's own: 131 valleys, centre 66; three buoys 6 wide 36 apart, the outermost at valleys 28 and 105.
        Assert.Equal(new SizePlacement("buoy", 3, 36, 30, 26), table[0].Placements[0]);
        // 8 in: 108 / 131 of 95 valleys is 78.3: two copies 39.2 apart are nearer to 36 than three 26.1 apart: 40, even as 36 is.
        Assert.Equal((2, 40), (table[1].Placements[0].Copies, table[1].Placements[0].Every));
        // 18 in: 108 / 131 of 215 is 177.3: five copies 35.5 apart, so 36.
        Assert.Equal((5, 36, 30), (table[2].Placements[0].Copies, table[2].Placements[0].Every, table[2].Placements[0].Gap));
        Assert.True(table[2].Fits);

        // The bar lies 34 valleys right of the middle, on valleys 93 to 108; 8 in has its middle at 48, and so 75 to 90.
        Assert.True(table[1].Fits, string.Join(" ", table[1].Troubles));
        // 5 in: centre 30, the bar on 57 to 72, and there are 59 valleys; gathering rows 4 and 5 are gone.
        Assert.False(table[3].Fits);
        Assert.Contains(table[3].Troubles, t => t == "“bar” runs 13 valleys off the side: it needs 86 pleats and this size has 60.");
        Assert.Contains(table[3].Troubles, t => t == "“bar” runs 5 cable rows below the last gathering row, 3.");
        Assert.Contains(table[3].Troubles, t => t.StartsWith("The cable band on gathering row 5", StringComparison.Ordinal));
    }

    [Fact]
    public void Figures_that_run_into_each_other_are_named()
    {
        var piece = PieceReader.Read(Text("[ ]").Replace("\"gatheringRow\": 4", "\"gatheringRow\": 2", StringComparison.Ordinal));
        Assert.Empty(SizeTable.Of(piece)[0].Troubles); // over one another in the design itself: the maker's own doing
        piece = piece with { Sizes = [new Pleatwright.Cloth.Size("wide", new Panel(Length.FromInches(14)))] };
        // 14 in: 138 valleys' worth: four buoys; the bar now meets one it did not meet, but the pair is known.
        Assert.Empty(SizeTable.Of(piece)[1].Troubles);

        var apart = PieceReader.Read(Text("""[ { "name": "wide", "finishedWidth": "20 in" } ]""")
            .Replace("\"centre\": 100, \"gatheringRow\": 4", "\"centre\": 114, \"gatheringRow\": 2", StringComparison.Ordinal));
        Assert.Empty(SizeTable.Of(apart)[0].Troubles);
        Assert.Contains("“buoy” and “bar” run into each other.", SizeTable.Of(apart)[1].Troubles);
    }

    [Fact]
    public void Accents_bands_and_fixed_runs_go_where_the_figures_go()
    {
        var piece = PieceReader.Read(Text("""[ { "name": "large", "finishedWidth": "18 in" }, { "name": "short", "finishedWidth": "11 in", "gatheringRows": 3 } ]"""));
        var knot = new AccentMark("knot", Centre.Middle, new GatheringRow(2), new('r'));
        piece = piece with
        {
            Accents = [knot with { Repeat = new Repeat(3, 36) }, knot with { Centre = Centre.At(new Valley(100)), GatheringRow = new GatheringRow(4) }],
            Bands = [new Band("wave", new GatheringRow(3), new('r')) { From = new Pleat(60), To = new Pleat(73) }],
            Working = piece.Working with { Places = [new FixedPlace(new CableRow(15), new Valley(100), 1)] },
        };
        var large = SizeTable.In(piece, piece.Sizes[0]); // 216 pleats for 132: the middle 42 further
        Assert.Equal(large.Placements[0].Repeat, large.Accents[0].Repeat);
        Assert.Equal(5, large.Accents[0].Repeat.Count);
        Assert.Equal(large.Placements[1].Centre, large.Accents[1].Centre);
        Assert.Equal((102, 115), (large.Bands[0].From!.Value.Number, large.Bands[0].To!.Value.Number));
        Assert.Equal(142, large.Working.Places[0].Valley.Number);
        var line = SizeTable.Of(piece)[2];
        Assert.Single(line.Piece!.Accents);
        Assert.Contains("The knot on gathering row 4 lies below the last gathering row, 3.", line.Troubles);
        Assert.Equal(PieceWriter.Write(line.Piece), PieceWriter.Write(PieceReader.Read(PieceWriter.Write(line.Piece))));
    }

    [Fact]
    public void A_bishop_keeps_its_panels_unless_a_size_gives_its_own()
    {
        const string form = "\"form\": \"round\", \"neck\": \"11 in\", \"panels\": [ { \"name\": \"all\", \"cut\": \"44 in\" } ]";
        var piece = PieceReader.Read(Text("""[ { "name": "tight", "neck": "2 in" }, { "name": "large", "neck": "13 in", "panels": [ { "name": "a", "cut": "30 in" }, { "name": "b", "cut": "30 in" } ] }, { "name": "none", "neck": "9 in", "panels": [ { "name": "a", "cut": "1 in" } ] } ]""", form));
        var table = SizeTable.Of(piece);
        Assert.Equal([170, 170, 234], table.Take(3).Select(l => l.Pleating!.Pleats));
        Assert.Equal(13.0 / 234, table[2].Pleating!.PitchAt(0).Inches, 12);
        Assert.Contains("closer than a pleat is thick", Assert.Single(table[1].Troubles));
        Assert.Null(table[3].Piece);
        Assert.StartsWith("The panels give 4 pleats", Assert.Single(table[3].Troubles), StringComparison.Ordinal);
        Assert.Equal(PieceWriter.Write(piece), PieceWriter.Write(PieceReader.Read(PieceWriter.Write(piece))));
        Assert.Equal(piece.Sizes, PieceReader.Read(PieceWriter.Write(piece)).Sizes);
    }

    [Fact]
    public void A_piece_in_a_size_is_a_piece_like_any_other()
    {
        var piece = PieceReader.Read(Text("""[ { "name": "small", "finishedWidth": "8 in" } ]"""));
        var small = SizeTable.In(piece, piece.Sizes[0]);
        Assert.Equal(PieceWriter.Write(small), PieceWriter.Write(PieceReader.Read(PieceWriter.Write(small))));
        Assert.True(Work.Lay(small).Strays.IsEmpty);
    }

    [Fact]
    public void Repeats_stay_on_the_cloth_apart_and_on_the_level_they_had() =>
        Gen.Select(Gen.Int[1, 30], Gen.Int[2, 12], Gen.Int[1, 60], Gen.Double[2, 30]).Sample((width, count, gap, inches) =>
        {
            var repeat = new Repeat(count, width + gap);
            var piece = new Piece("Row", new ClothPlan(new Panel(Length.FromInches((count * repeat.Every + 2) / 12.0)), Gauge.Common, 3),
                PieceGen.Threads, [new Figure("bar", [new string('a', width)])],
                [new Placement("bar", Centre.Middle, new GatheringRow(2), 0) { Repeat = repeat }]);
            var line = SizeTable.Of(piece with { Sizes = [new Pleatwright.Cloth.Size("other", new Panel(Length.FromInches(inches)))] })[1];
            var fitted = line.Placements[0];
            Assert.Equal(line.Fits, width <= line.Pleating!.Valleys);
            if (fitted.Copies == 1) return;
            Assert.True(fitted.Gap > 0);
            Assert.Equal(repeat.Every % 2, fitted.Every % 2);
        });

    [Fact]
    public void The_same_width_keeps_the_same_design() => PieceGen.Pieces.Sample(piece =>
    {
        var same = SizeTable.In(piece, new Pleatwright.Cloth.Size("same", piece.Cloth.Form));
        Assert.Equal(piece.Placements, same.Placements);
        Assert.Equal(Work.Lay(piece).Runs.ToArray(), Work.Lay(same).Runs.ToArray());
    });

    [Theory]
    [InlineData("""[ { "name": "a", "neck": "9 in" } ]""", 3, "lacks the key “finishedWidth”")]
    [InlineData("""[ { "name": "a", "finishedWidth": "9 in" }, { "name": "a", "finishedWidth": "9 in" } ]""", 55, "a name of its own")]
    [InlineData("""[ { "finishedWidth": "9 in" } ]""", 3, "lacks the key “name”")]
    [InlineData("""[ { "name": "a", "finishedWidth": "9 in", "neck": "9 in" } ]""", 43, "a size has no key “neck”")]
    [InlineData("""[ { "name": "a", "finishedWidth": "9" } ]""", 35, "a length with its unit")]
    public void A_bad_size_is_an_error_that_says_where(string sizes, int column, string words)
    {
        var e = Assert.Throws<PieceFormatException>(() => PieceReader.Read(Text(sizes)));
        Assert.Contains(words, e.Message);
        Assert.Equal((9, column), (e.Line, e.Column));
    }

    [Fact]
    public void Sizes_follow_the_cloth_where_they_were_as_the_piece_and_go_with_another_form()
    {
        RoundPanel[] own = [new("all", Length.FromInches(40))], wide = [new("all", Length.FromInches(44))], bigger = [new("all", Length.FromInches(50))];
        var round = new Round(Length.FromInches(8), Angle.FullTurn, [.. own]);
        var cloth = new ClothPlan(round, Gauge.Common, 5);
        var piece = new Piece("A bishop", cloth, [], [], [])
        {
            Sizes = [new("small", round with { Neck = Length.FromInches(7) }), new("large", new Round(Length.FromInches(9), Angle.FromDegrees(300), [.. bigger]))],
        };
        var recut = Pleatwright.Chart.Edit.OtherCloth.To(piece, cloth with { Form = new Round(Length.FromInches(8), Angle.FromDegrees(270), [.. wide]) });
        Assert.Equal(new Round(Length.FromInches(7), Angle.FromDegrees(270), [.. wide]), recut.Sizes[0].Form);
        Assert.Equal(piece.Sizes[1], recut.Sizes[1]);
        Assert.Empty(Pleatwright.Chart.Edit.OtherCloth.To(piece, cloth with { Form = new Ball(Length.FromInches(3)) }).Sizes);
    }
}

using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Plate;
using Pleatwright.Plate.Preparation;
using Pleatwright.Plate.Writers;
using Pleatwright.Tests.Files;

namespace Pleatwright.Tests.Cloth.Forms;

/// <summary>A form added as one file: what all the rest makes of it without having been told.</summary>
public class CuffTests
{
    private const string File = """
        { "pleatwright": 1, "title": "Deckhand's cuff",
          "cloth": { "form": "cuff", "finishedWidth": "7 in", "edgeSeam": "1/2 in", "gatheringRows": 5 },
          "threads": { "r": { "colour": "#b3202c" } },
          "bands": [ { "stitch": "trellis", "gatheringRow": 2, "thread": "r" } ],
          "sizes": [ { "name": "wide", "finishedWidth": "9 in" }, { "name": "deep seam", "finishedWidth": "7 in", "edgeSeam": "5/8 in" } ] }
        """;

    private static readonly Gen<Cuff> Cuffs = Gen.Select(Gen.Double[1, 30], Gen.Double[0, 2]).Select(t => new Cuff(Length.FromInches(t.Item1), Length.FromInches(t.Item2)));

    [Fact]
    public void It_is_read_written_and_read_again_its_sizes_too()
    {
        var piece = PieceReader.Read(File);
        Assert.Equal(new Cuff(Length.FromInches(7), Length.FromInches(0.5)), piece.Cloth.Form);
        Assert.Equal([new Cuff(Length.FromInches(9), Length.FromInches(0.5)), new Cuff(Length.FromInches(7), Length.FromInches(0.625))], piece.Sizes.Select(s => s.Form));
        var written = PieceWriter.Write(piece);
        Assert.Equal(written, PieceWriter.Write(PieceReader.Read(written)));
        Assert.True(Schemas.FitsPiece(written));
        Assert.False(Schemas.FitsPiece(written.Replace("\"cuff\"", "\"panel\"", StringComparison.Ordinal)));
        Assert.True(Schemas.FitsPiece(written.Replace("\"edgeSeam\": \"1/2 in\",", "", StringComparison.Ordinal)));
    }

    [Fact]
    public void Whatever_its_measures_it_pleats_as_a_panel_does_and_is_cut_deeper_by_both_seams() => Cuffs.Sample(cuff =>
    {
        ClothPlan cloth = new(cuff, Gauge.Common, 5), panel = cloth with { Form = new Panel(cuff.Width) };
        PleatingPlan plan = new(cloth), like = new(panel);
        Assert.Equal((like.Pleats, like.CutWidth, like.FinishedWidth), (plan.Pleats, plan.CutWidth, plan.FinishedWidth));
        Assert.Equal((panel.CutDepth + cuff.Edge * 2).Millimetres, cloth.CutDepth.Millimetres, 9);
    });

    [Fact]
    public void Its_seams_follow_the_piece_in_the_sizes_that_have_none_of_their_own()
    {
        var piece = PieceReader.Read(File);
        var other = piece.Cloth.Form.Kind.Make(piece.Cloth.Form.Values.With(CuffKind.EdgeKey, Length.FromInches(1)));
        Assert.Equal([1, 0.625], piece.Sizes.Select(s => ((Cuff)s.Follow(piece.Cloth.Form, other)!.Form).Edge.Inches));
        Assert.All(piece.Sizes, s => Assert.Null(s.Follow(piece.Cloth.Form, new Panel(Length.FromInches(4)))));
    }

    [Fact]
    public void Everything_else_takes_it()
    {
        var work = Work.Lay(PieceReader.Read(File));
        var lines = ClothWords.Of(work.Pleating, UnitSystem.Inches);
        Assert.Contains(lines, l => l.Words == "7 in wide between its side seams, 1 1/2 in from the first gathering row to the last; sewn in at both edges, 1/2 in at each");
        foreach (var kind in Enum.GetValues<PreparationKind>()) Assert.NotEmpty(PreparationSheets.Make(work.Piece, kind, new PlateOptions()));
        Assert.All(SizeTable.Of(work.Piece), l => Assert.True(l.Fits));
        var order = Smocking.Plan(work);

        Assert.True(PlateFormat.Svg.Write(Smocking.Plate(order, Smocking.Prove(work))).Length > 1000);
        Assert.Contains("a cuff is wider than nothing", Assert.Throws<ArgumentOutOfRangeException>(() => new PleatingPlan(work.Piece.Cloth with { Form = new Cuff(Length.Zero, Length.Zero) })).Message, StringComparison.Ordinal);
    }
}

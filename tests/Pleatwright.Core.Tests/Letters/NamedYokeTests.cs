using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Letters;
using Pleatwright.Measure;
using Pleatwright.Plate.Writers;
using Pleatwright.Proof;
using Pleatwright.Recutting;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Letters;

/// <summary>A name on a yoke, with a border round it and bands above and below, made from the letters to the plate.</summary>
public class NamedYokeTests
{
    private static Piece Yoke(string alphabet)
    {
        var set = new LetteringOptions { Text = "Zoë", Source = Alphabet.Named(alphabet)!, Border = true };
        var name = LetteredPiece.Around(set, Some.Floss('n', "#26437a", 4) with { Name = "night blue" }, Some.Floss('s', "#b3202c", 4) with { Name = "signal red" }, Gauge.Common, "Zoë's yoke", margin: 14).Piece;
        var last = name.Cloth.GatheringRows;
        var cloth = name.Cloth with { GatheringRows = last + 2 };
        return name with
        {
            Cloth = cloth,
            Placements = [.. name.Placements.Select(p => p with { GatheringRow = new GatheringRow(p.GatheringRow.Number + 1) })],
            Bands = [new Band("cable", new GatheringRow(1), new ThreadKey('s')), new Band("cable", new GatheringRow(last + 2), new ThreadKey('s'))],
        };
    }

    public static TheoryData<string> Alphabets => [.. Alphabet.All.Select(a => a.Name)];

    [Theory, MemberData(nameof(Alphabets))]
    public void It_goes_from_the_letters_to_the_plate_with_nothing_to_mend(string alphabet)
    {
        var piece = PieceReader.Read(PieceWriter.Write(Yoke(alphabet)));
        Assert.Equal("Zoë", piece.Figures[0].Letters);
        var work = Smocking.Lay(piece);
        Assert.DoesNotContain(Smocking.Prove(work), f => f.Severity != Severity.Note);
        var order = Smocking.Plan(work);
        Assert.Equal(work.Cables, order.Steps.Sum(s => s.Cables));
        var plate = Smocking.Plate(order, Smocking.Prove(work));
        Assert.True(plate.Sheets.Length <= 8, $"{plate.Sheets.Length} pages");
        Assert.All(PlateFormat.All, format => Assert.NotEmpty(format.Write(plate)));
    }

    [Theory, MemberData(nameof(Alphabets))]
    public void Recut_to_packed_pleats_and_back_it_is_the_very_piece(string alphabet)
    {
        var piece = Yoke(alphabet);
        var packed = new Gauge(Length.FromInches(1 / 18.0), Length.FromInches(0.2), Length.FromInches(0.375), piece.Cloth.Gauge.CableRowsPerSpace);
        var there = Recutter.Recut(piece, packed, RecutKeep.Count).Piece;
        Assert.NotEqual(piece.Cloth, there.Cloth);
        Assert.Equal(piece.Figures[0].Rows, there.Figures[0].Rows);
        var back = Recutter.Recut(there, piece.Cloth.Gauge, RecutKeep.Count).Piece;
        Assert.Equal(piece.Figures[0], back.Figures[0]);
        Assert.Equal(piece.Placements, back.Placements);
        Assert.Equal(piece.Bands, back.Bands);
    }
}

using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Edit;
using Pleatwright.Files;
using Pleatwright.Tests.Chart.Stitches;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Chart.Edit;

public class AccentEditTests
{
    private static readonly ThreadKey A = new('a'), B = new('b');

    private static readonly Piece Bare = BandGen.Alone(BandGen.Band("outline"), 40) with { Bands = [] };

    private static readonly Gen<(string Name, int Valley, int Row)> Spots =
        Gen.Select(Gen.Int[0, Accent.All.Length - 1].Select(i => Accent.All[i].Name), Gen.Int[1, 39], Gen.Int[0, 25]);

    [Fact]
    public void An_accent_lies_where_it_was_put_and_is_found_there() => Spots.Sample((name, valley, row) =>
    {
        var piece = Accenting.Put(Bare, name, new Valley(valley), new CableRow(row), A);
        var work = Work.Lay(piece);
        var laid = Assert.Single(work.Accents);
        Assert.Equal((valley, row), (laid.Valley.Number, Accenting.RowOf(work, laid).Index));
        Assert.Equal(laid, Accenting.At(work, new Valley(valley), new CableRow(row)));
        Assert.Null(Accenting.At(work, new Valley(valley), new CableRow(row + 12)));
        Assert.Equal(piece.Accents, PieceReader.Read(PieceWriter.Write(piece)).Accents);
        Assert.StartsWith(char.ToUpperInvariant(name[0]) + name[1..], Where.What(work, new Valley(valley), new CableRow(row)), StringComparison.Ordinal);
    });

    [Fact]
    public void It_moves_by_valleys_and_rows_and_back_again() => Gen.Select(Spots, Gen.Int[-39, 39], Gen.Int[-25, 25]).Sample((spot, valleys, rows) =>
    {
        var piece = Accenting.Put(Bare, spot.Name, new Valley(spot.Valley), new CableRow(spot.Row), A);
        if (spot.Valley + valleys is < 1 or > 39 || spot.Row + rows is < 0 or > 25)
        {
            Assert.Throws<ArgumentException>(() => Accenting.By(piece, 0, valleys, rows));
            return;
        }
        var moved = Accenting.By(piece, 0, valleys, rows);
        Assert.Equal(Accenting.Put(Bare, spot.Name, new Valley(spot.Valley + valleys), new CableRow(spot.Row + rows), A).Accents, moved.Accents);
        Assert.Equal(piece.Accents, Accenting.By(moved, 0, -valleys, -rows).Accents);
    });

    [Fact]
    public void It_is_recoloured_changed_and_taken_off()
    {
        var piece = Accenting.Put(Accenting.Put(Bare, "knot", new Valley(10), new CableRow(5), A), "bullion", new Valley(20), new CableRow(7), A);
        Assert.Equal([A, B], Accenting.Recolour(piece, 1, B).Accents.Select(a => a.Thread));
        Assert.Equal(["bullion"], Accenting.TakeOff(piece, 0).Accents.Select(a => a.Accent));
        Assert.Equal(["knot"], Accenting.TakeOff(Work.Lay(piece), Area.Between(new Valley(15), new CableRow(7), new Valley(25), new CableRow(9))).Accents.Select(a => a.Accent));
        Assert.Throws<ArgumentException>(() => Accenting.Change(piece, 0, piece.Accents[0] with { Size = 3 }));
        Assert.Throws<ArgumentException>(() => Accenting.Change(piece, 1, piece.Accents[1] with { Size = 13 }));
        Assert.Throws<ArgumentException>(() => Accenting.Put(Bare, "bow", new Valley(10), new CableRow(5), A));
        Assert.Throws<ArgumentException>(() => Accenting.Recolour(piece, 0, new ThreadKey('Z')));
    }

    [Fact]
    public void Of_two_accents_on_one_cell_the_nearest_and_topmost_is_found()
    {
        var piece = Accenting.Put(Accenting.Put(Bare, "bullion", new Valley(10), new CableRow(5), A), "knot", new Valley(11), new CableRow(5), A);
        var work = Work.Lay(piece);
        Assert.Equal("bullion", Accenting.At(work, new Valley(9), new CableRow(5))!.Value.Accent.Name);
        Assert.Equal("knot", Accenting.At(work, new Valley(11), new CableRow(5))!.Value.Accent.Name);
    }
}

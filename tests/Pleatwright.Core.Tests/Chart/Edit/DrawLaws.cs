using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Cloth;
using static Pleatwright.Tests.Chart.Edit.AnyPiece;

namespace Pleatwright.Tests.Chart.Edit;

public class DrawLaws
{
    private static readonly Gen<(Piece Piece, (Valley Valley, CableRow Row)[] Cells, Pleatwright.Thread.ThreadKey Thread)> Strokes =
        from piece in Pieces
        from cells in CellOf(piece).Array[1, 8]
        from thread in AnyPiece.Thread
        select (piece, cells, thread);

    private static readonly Gen<(Piece Piece, (Valley Valley, CableRow Row)[] Cells, Pleatwright.Thread.ThreadKey Thread)> StrokesOnSingles =
        from piece in Singles
        from cells in CellOf(piece).Array[1, 8]
        from thread in AnyPiece.Thread
        select (piece, cells, thread);

    [Fact]
    public void Every_cell_drawn_shows_its_thread() => Strokes.Sample(s =>
    {
        var drawn = Sound(Draw.Cables(s.Piece, s.Cells, s.Thread).Piece);
        var work = Work.Lay(drawn);
        foreach (var (valley, row) in s.Cells) Assert.Equal(s.Thread, work.ThreadAt(valley, row));
    });

    [Fact]
    public void Where_figures_lie_once_nothing_else_changes() => StrokesOnSingles.Sample(s =>
    {
        var valleys = new PleatingPlan(s.Piece.Cloth).Valleys;
        var (before, after) = (Shown(s.Piece), Shown(Draw.Cables(s.Piece, s.Cells, s.Thread).Piece));
        var drawn = s.Cells.ToHashSet();
        for (var y = 0; y < new PleatingPlan(s.Piece.Cloth).CableRows; y++)
            for (var v = 1; v <= valleys; v++)
                if (!drawn.Contains((new Valley(v), new CableRow(y))))
                    Assert.Equal(At(before, valleys, new Valley(v), new CableRow(y)), At(after, valleys, new Valley(v), new CableRow(y)));
    });

    [Fact]
    public void What_is_drawn_into_a_figure_shows_in_all_its_copies()
    {
        var piece = Sound(Draw.Cables(Blank(), [(new Valley(10), new CableRow(0)), (new Valley(11), new CableRow(0))], new('a')).Piece);
        piece = Placing.Repeat(piece, 0, 2, 6);
        piece = Draw.Cables(piece, [(new Valley(7), new CableRow(1))], new('b')).Piece;
        var work = Work.Lay(piece);
        Assert.Equal(new Pleatwright.Thread.ThreadKey('b'), work.ThreadAt(new Valley(13), new CableRow(1)));
        Assert.Single(piece.Figures);
    }

    [Fact]
    public void A_figure_on_the_centre_valley_stays_on_it_while_it_grows()
    {
        var blank = Blank();
        var centre = new PleatingPlan(blank.Cloth).CentreValley;
        var piece = Draw.Cables(blank, [(new Valley(centre), new CableRow(0)), (new Valley(centre + 2), new CableRow(0))], new('a')).Piece;
        Assert.True(piece.Placements.Single().Centre.IsMiddle);
        Assert.Equal("..a.a", piece.Figures.Single().Rows[0]);
    }

    [Fact]
    public void A_figure_off_the_centre_grows_only_where_drawn()
    {
        var piece = Draw.Cables(Blank(), [(new Valley(4), new CableRow(0)), (new Valley(6), new CableRow(1))], new('a')).Piece;
        Assert.Equal(["a..", "..a"], piece.Figures.Single().Rows);
    }

    [Fact]
    public void Far_from_any_figure_a_new_one_begins()
    {
        var piece = Draw.Cables(Blank(), [(new Valley(4), new CableRow(0))], new('a')).Piece;
        piece = Draw.Cables(piece, [(new Valley(20), new CableRow(0))], new('a')).Piece;
        Assert.Equal(2, piece.Figures.Length);
    }

    [Fact]
    public void A_thread_the_piece_lacks_is_refused() =>
        Assert.Throws<ArgumentException>(() => Draw.Cables(Blank(), [(new Valley(4), new CableRow(0))], new('q')));

    [Fact]
    public void Cleared_cells_show_no_figure() => Strokes.Sample(s =>
    {
        var cleared = Sound(Clear.Cables(s.Piece, s.Cells));
        var work = Work.Lay(cleared with { Bands = [] });
        foreach (var (valley, row) in s.Cells) Assert.False(work.IsWorked(valley, row));
    });

    [Fact]
    public void Clearing_leaves_the_rest_as_it_was() => StrokesOnSingles.Sample(s =>
    {
        var bare = s.Piece with { Bands = [] };
        var valleys = new PleatingPlan(bare.Cloth).Valleys;
        var (before, after) = (Shown(bare), Shown(Clear.Cables(bare, s.Cells)));
        var gone = s.Cells.ToHashSet();
        for (var y = 0; y < new PleatingPlan(bare.Cloth).CableRows; y++)
            for (var v = 1; v <= valleys; v++)
                Assert.Equal(gone.Contains((new Valley(v), new CableRow(y))) ? '.' : At(before, valleys, new Valley(v), new CableRow(y)),
                    At(after, valleys, new Valley(v), new CableRow(y)));
    });

    [Fact]
    public void A_figure_cleared_to_the_last_cable_is_gone()
    {
        var piece = Draw.Cables(Blank(), [(new Valley(4), new CableRow(3))], new('a')).Piece;
        piece = Clear.Cables(piece, [(new Valley(4), new CableRow(3))]);
        Assert.Empty(piece.Figures);
        Assert.Empty(piece.Placements);
    }

    [Fact]
    public void Filling_changes_the_region_and_nothing_else() =>
        (from piece in Singles from cell in CellOf(piece) from thread in AnyPiece.Thread select (piece, cell, thread)).Sample(s =>
        {
            var work = Work.Lay(s.piece);
            var region = Fill.Region(work, s.cell.Valley, s.cell.Row).ToHashSet();
            var like = work.ThreadAt(s.cell.Valley, s.cell.Row);
            Assert.All(region, c => Assert.Equal(like, work.ThreadAt(c.Valley, c.Row)));
            var filled = Sound(Fill.With(work, s.cell.Valley, s.cell.Row, s.thread));
            var (before, after) = (Shown(s.piece), Shown(filled));
            for (var y = 0; y < work.CableRows; y++)
                for (var v = 1; v <= work.Valleys; v++)
                    Assert.Equal(region.Contains((new Valley(v), new CableRow(y))) ? s.thread.Letter : At(before, work.Valleys, new Valley(v), new CableRow(y)),
                        At(after, work.Valleys, new Valley(v), new CableRow(y)));
        });

    internal static Piece Blank() => new("blank",
        new ClothPlan(new Panel(Pleatwright.Measure.Length.FromInches(2)), Gauge.Common, 4),
        [new(new('a'), "one", default, 4), new(new('b'), "two", default, 4)], [], []);
}

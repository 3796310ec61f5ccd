using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Tests.Chart.Stitches;
using Pleatwright.Tests.Endurance;
using Pleatwright.Thread;
using static Pleatwright.Tests.Chart.Edit.AnyPiece;

namespace Pleatwright.Tests.Chart.Edit;

public class FigureLaws
{
    private static readonly Gen<(Piece Piece, string Figure, int At)> Lines =
        from piece in Pieces.Where(p => p.Figures.Length > 0)
        from figure in Gen.Int[0, piece.Figures.Length - 1]
        from at in Gen.Int[0, 100]
        select (piece, piece.Figures[figure].Name, at);

    [Fact]
    public void A_row_inserted_and_removed_leaves_the_piece_as_it_was() => Lines.Sample(s =>
    {
        var row = s.At % (s.Piece.Figure(s.Figure)!.Height + 1);
        var opened = Sound(Rows.Insert(s.Piece, s.Figure, row));
        Assert.Equal(s.Piece.Figure(s.Figure)!.Height + 1, opened.Figure(s.Figure)!.Height);
        Assert.Equal(PieceWriter.Write(s.Piece), PieceWriter.Write(Rows.Remove(opened, s.Figure, row)));
    });

    [Fact]
    public void A_valley_inserted_and_removed_leaves_the_piece_as_it_was() => Lines.Sample(s =>
    {
        var column = s.At % (s.Piece.Figure(s.Figure)!.Width + 1);
        if (s.Piece.Placements.Any(p => p.Mirror && p.Centre == Centre.At(new Valley(1)))) return; // its middle would leave the cloth
        var opened = Sound(Columns.Insert(s.Piece, s.Figure, column));
        Assert.Equal(s.Piece.Figure(s.Figure)!.Width + 1, opened.Figure(s.Figure)!.Width);
        Assert.Equal(PieceWriter.Write(s.Piece), PieceWriter.Write(Columns.Remove(opened, s.Figure, column)));
    });

    [Fact]
    public void The_row_on_the_gathering_row_stays_on_it() => Lines.Sample(s =>
    {
        var row = s.At % (s.Piece.Figure(s.Figure)!.Height + 1);
        var opened = Rows.Insert(s.Piece, s.Figure, row);
        for (var i = 0; i < s.Piece.Placements.Length; i++)
        {
            if (s.Piece.Placements[i].Figure != s.Figure) continue;
            Assert.Equal(s.Piece.Placements[i].GatheringRow, opened.Placements[i].GatheringRow);
            Assert.Equal(s.Piece.Figure(s.Figure)!.Rows[s.Piece.Placements[i].FigureRow], opened.Figure(s.Figure)!.Rows[opened.Placements[i].FigureRow]);
        }
    });

    [Fact]
    public void What_lies_before_an_inserted_valley_stays_where_it_is() => Lines.Sample(s =>
    {
        var (plan, old) = (new PleatingPlan(s.Piece.Cloth), s.Piece.Figure(s.Figure)!);
        var column = s.At % (old.Width + 1);
        var opened = Columns.Insert(s.Piece, s.Figure, column);
        for (var i = 0; i < s.Piece.Placements.Length; i++)
        {
            var placement = s.Piece.Placements[i];
            if (placement.Figure != s.Figure || placement.Centre.IsMiddle || placement is { Mirror: true, Centre: var c } && c == Centre.At(new Valley(1))) continue;
            var (before, after) = (Spot.SeatOf(s.Piece, plan, i, 0), Spot.SeatOf(opened, plan, i, 0));
            for (var k = 0; k < column; k++) Assert.Equal(before.ValleyOf(k), after.ValleyOf(k));
        }
    });

    [Fact]
    public void Reaching_further_and_trimming_move_no_stitch() =>
        (from l in Lines from c in Gen.Int[-6, 16] from r in Gen.Int[-6, 16] select (l.Piece, l.Figure, c, r)).Sample(s =>
        {
            var reached = Bounds.Reach(s.Piece, s.Figure, s.c, s.r)!.Value;
            Sound(reached.Piece);
            var figure = reached.Piece.Figure(s.Figure)!;
            Assert.InRange(reached.Column, 0, figure.Width - 1);
            Assert.InRange(reached.Row, 0, figure.Height - 1);
            Assert.Equal(Shown(s.Piece), Shown(reached.Piece));
            Assert.Equal(Shown(s.Piece), Shown(Sound(Bounds.Trim(reached.Piece, s.Figure))));
        });

    [Fact]
    public void Splitting_a_copy_off_moves_no_stitch() =>
        (from p in Pieces.Where(p => p.Placements.Length > 0) from i in Gen.Int[0, p.Placements.Length - 1] from c in Gen.Int[0, 2] select (p, i, c)).Sample(s =>
        {
            var copy = s.c % s.p.Placements[s.i].Repeat.Count;
            Piece piece;
            int placement;
            try { (piece, placement) = Detach.Copy(s.p, s.i, copy); }
            catch (ArgumentException) { return; }
            Assert.Equal(Shown(s.p), Shown(Sound(piece)));
            Assert.InRange(piece.Placements.Length, s.p.Placements.Length, s.p.Placements.Length + 2); // the others stay together
            Assert.Equal(1, piece.Placements.Count(q => q.Figure == piece.Placements[placement].Figure));
        });

    [Fact]
    public void A_placement_moved_lands_that_far_away() =>
        (from p in Pieces.Where(p => p.Placements.Length > 0) from i in Gen.Int[0, p.Placements.Length - 1] from dv in Gen.Int[-5, 5] from dy in Gen.Int[-5, 5] select (p, i, dv, dy)).Sample(s =>
        {
            var plan = new PleatingPlan(s.p.Cloth);
            var before = Spot.SeatOf(s.p, plan, s.i, 0);
            var figureBefore = s.p.Figure(s.p.Placements[s.i].Figure)!;
            var moved = Sound(Placing.By(s.p, s.i, s.dv, s.dy));
            var centre = s.p.Placements[s.i].Centre.On(plan).Number + s.dv;
            var top = before.Top + s.dy;
            if (centre < 1 || centre > plan.Valleys || top < 1 - figureBefore.Height || top >= plan.CableRows) return;
            var after = Spot.SeatOf(moved, plan, s.i, 0);
            // Bare rows may have been added above or below, so the first worked cell tells where it is.
            Assert.Equal(FirstCable(s.p, s.i, before, s.dv, s.dy), FirstCable(moved, s.i, after, 0, 0));
        });

    private static (int, int)? FirstCable(Piece piece, int placement, Seat seat, int dv, int dy)
    {
        var figure = piece.Figure(piece.Placements[placement].Figure)!;
        for (var r = 0; r < figure.Height; r++)
            for (var c = 0; c < figure.Width; c++)
                if (figure.Rows[r][c] != Figure.Bare) return (seat.ValleyOf(c).Number + dv, seat.Top + r + dy);
        return null;
    }

    [Fact]
    public void A_placement_turned_twice_or_flipped_twice_is_the_same() =>
        (from p in Pieces.Where(p => p.Placements.Length > 0) from i in Gen.Int[0, p.Placements.Length - 1] select (p, i)).Sample(s =>
        {
            Assert.Equal(s.p.Placements[s.i], Placing.Turn(Sound(Placing.Turn(s.p, s.i)), s.i).Placements[s.i]);
            Assert.Equal(s.p.Placements[s.i], Placing.FlipPhase(Sound(Placing.FlipPhase(s.p, s.i)), s.i).Placements[s.i]);
        });

    [Fact]
    public void Renamed_and_named_back_is_the_same() => Lines.Sample(s =>
        Assert.Equal(PieceWriter.Write(s.Piece), PieceWriter.Write(Figures.Rename(Sound(Figures.Rename(s.Piece, s.Figure, "other")), "other", s.Figure))));

    [Fact]
    public void A_thread_given_another_letter_works_the_same_cloth() => Pieces.Sample(p =>
    {
        var old = p.Threads[0];
        var changed = Sound(Threads.Change(p, old.Key, old with { Key = new ThreadKey('Q') }));
        Assert.Equal(Shown(p), Shown(changed).Replace('Q', old.Key.Letter));
        Assert.Equal(PieceWriter.Write(p), PieceWriter.Write(Threads.Change(changed, new ThreadKey('Q'), old)));
    });

    [Fact]
    public void A_thread_taken_away_is_nowhere() => Pieces.Sample(p =>
    {
        Assert.DoesNotContain('a', Shown(Sound(Threads.Remove(p, new ThreadKey('a'), null))));
        Assert.Equal(Shown(p).Replace('a', 'b'), Shown(Sound(Threads.Remove(p, new ThreadKey('a'), new ThreadKey('b')))));
    });

    [Fact]
    public void Other_cloth_keeps_every_placement_as_far_from_the_centre() =>
        (from p in Pieces from more in Gen.Int[0, 20] select (p, more)).Sample(s =>
        {
            var wider = s.p.Cloth with { Form = new Panel(((Panel)s.p.Cloth.Form).Width + Length.FromMillimetres(4 * s.more)) };
            var recut = Sound(OtherCloth.To(s.p, wider));
            int Away(Piece p, int i)
            {
                var plan = new PleatingPlan(p.Cloth);
                return p.Placements[i].Centre.On(plan).Number - plan.CentreValley;
            }
            for (var i = 0; i < s.p.Placements.Length; i++) Assert.Equal(Away(s.p, i), Away(recut, i));
            Assert.Equal(PieceWriter.Write(s.p), PieceWriter.Write(OtherCloth.To(recut, s.p.Cloth)));
        });

    // Whatever other cloth a piece is given, it can still be written and read: nothing of it is lost with the file.
    [Fact]
    public void On_any_other_cloth_a_piece_with_bands_and_accents_is_sound() =>
        Gen.Select(BandGen.Pieces, BandGen.Bands, Gen.Int[1, 60], Gen.Int[2, 40], Gen.Select(Gen.Int[1, 60], Gen.Int[2, 9])).Sample((piece, band, from, width, cloth) =>
        {
            var with = piece with { Bands = piece.Bands.Add(band with { From = new Pleat(from), To = new Pleat(from + width) }) };
            Sound(OtherCloth.To(with, with.Cloth with { Form = new Panel(Length.FromInches(cloth.Item1 / 4.0)), GatheringRows = cloth.Item2 }));
        }, iter: Long.Of(120, 300));

    [Fact]
    public void Squaring_twice_and_marking_twice_is_the_same() => Lines.Sample(s =>
    {
        var figure = s.Piece.Figure(s.Figure)!;
        var squared = Sound(Halves.Square(s.Piece, s.Figure, !figure.Square));
        Assert.Equal(PieceWriter.Write(s.Piece), PieceWriter.Write(Halves.Square(squared, s.Figure, figure.Square)));
        var mark = new HalfMark(s.At % figure.Height, RunEnd.Left);
        var marked = Sound(Halves.Toggle(s.Piece, s.Figure, mark));
        Assert.NotEqual(figure.Halves.Contains(mark), marked.Figure(s.Figure)!.Halves.Contains(mark));
        Assert.Equal(figure.Halves.Order(Comparer<HalfMark>.Create((a, b) => (a.Row, a.End).CompareTo((b.Row, b.End)))),
            Halves.Toggle(marked, s.Figure, mark).Figure(s.Figure)!.Halves.Order(Comparer<HalfMark>.Create((a, b) => (a.Row, a.End).CompareTo((b.Row, b.End)))));
    });

    [Fact]
    public void A_band_put_on_and_taken_off_leaves_the_piece_as_it_was()
    {
        var piece = DrawLaws.Blank();
        var band = new Band("cable", new GatheringRow(2), new ThreadKey('a'));
        var banded = Sound(Bands.Put(piece, band));
        Assert.Equal(new PleatingPlan(piece.Cloth).Valleys, Work.Lay(banded).Cables);
        Assert.Equal(PieceWriter.Write(piece), PieceWriter.Write(Bands.TakeOff(banded, band)));
        Assert.Throws<ArgumentException>(() => Bands.Put(piece, band with { GatheringRow = new GatheringRow(5) }));
        Assert.Throws<ArgumentException>(() => Bands.Put(piece, band with { Stitch = "none such" }));
    }
}

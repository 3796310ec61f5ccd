using CsCheck;
using Pleatwright.Chart.Edit;

namespace Pleatwright.Tests.Chart.Edit;

public class HistoryLaws
{
    [Fact]
    public void Every_edit_can_be_undone_and_done_again() => Gen.Int[0, 30].Sample(n =>
    {
        var pieces = Enumerable.Range(0, n + 1).Select(i => DrawLaws.Blank() with { Title = $"{i}" }).ToArray();
        var history = new History(pieces[0]);
        foreach (var piece in pieces.Skip(1)) history = history.Do(piece, piece.Title);
        for (var i = n; i > 0; i--)
        {
            Assert.Same(pieces[i], history.Now.Piece);
            history = history.Undo();
        }
        Assert.False(history.CanUndo);
        for (var i = 1; i <= n; i++) history = history.Redo();
        Assert.Same(pieces[n], history.Now.Piece);
        Assert.False(history.CanRedo);
    });

    [Fact]
    public void A_new_edit_leaves_nothing_to_redo()
    {
        var history = new History(DrawLaws.Blank()).Do(DrawLaws.Blank(), "one").Undo().Do(DrawLaws.Blank(), "two");
        Assert.False(history.CanRedo);
    }

    [Fact]
    public void The_same_piece_is_no_edit()
    {
        var piece = DrawLaws.Blank();
        Assert.False(new History(piece).Do(piece, "nothing").CanUndo);
    }

    [Fact]
    public void A_history_comes_back_from_its_moments() => Gen.Select(Gen.Int[1, 12], Gen.Int[0, 100]).Sample((count, at) =>
    {
        var moments = Enumerable.Range(0, count).Select(i => new Moment(DrawLaws.Blank(), $"{i}")).ToArray();
        var history = History.From([.. moments], at % count);
        Assert.Same(moments[at % count], history.Now);
        Assert.Equal(moments[..(at % count)].Reverse(), history.Past);
        Assert.Equal(moments[(at % count + 1)..], history.Future);
    });
}

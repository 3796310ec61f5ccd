using Pleatwright.Chart;
using Pleatwright.Chart.Edit;

namespace Pleatwright.Model.Tests.Table;

/// <summary>What is being drawn is one figure until it is closed.</summary>
public class DrawingTests
{
    private readonly AtTable at = new(Pieces.Empty);

    [Fact]
    public void Parts_far_apart_are_one_figure()
    {
        at.Stroke(at.Middle(10, 4), at.Middle(14, 4));
        at.Stroke(at.Middle(18, 4), at.Middle(22, 4)); // three valleys further
        at.Stroke(at.Middle(40, 15));
        at.Needle.GoTo(new Valley(3), new CableRow(1));
        at.Key(" ");
        Assert.Single(at.Piece.Figures);
        Assert.Equal(at.Piece.Figures[0].Name, at.Needle.Drawing);
        Assert.Equal(12, at.Worked().Count);
    }

    [Fact]
    public void Closed_it_is_done_and_the_next_stitches_begin_another_even_beside_it()
    {
        at.Stroke(at.Middle(10, 4), at.Middle(14, 4));
        at.Key("&");
        Assert.Null(at.Needle.Drawing);
        at.Stroke(at.Middle(16, 4), at.Middle(18, 4));
        Assert.Equal(2, at.Piece.Figures.Length);
        Assert.Equal(at.Piece.Figures[1].Name, at.Needle.Drawing);
    }

    [Fact]
    public void Drawing_on_a_figures_cables_goes_on_with_that_figure()
    {
        at.Stroke(at.Middle(10, 4), at.Middle(14, 4));
        at.Key("&");
        at.Stroke(at.Middle(30, 4), at.Middle(34, 4));
        at.Stroke(at.Middle(14, 4), at.Middle(17, 4));
        Assert.Equal(at.Piece.Figures[0].Name, at.Needle.Drawing);
        Assert.Equal(2, at.Piece.Figures.Length);
        at.Stroke(at.Middle(25, 9));
        Assert.Equal(9, at.Piece.Figures[0].Rows.Sum(r => r.Count(c => c != Figure.Bare)));
    }

    [Fact]
    public void A_figure_is_taken_up_to_draw_on()
    {
        at.Stroke(at.Middle(10, 4), at.Middle(14, 4));
        at.Key("&");
        at.Stroke(at.Middle(30, 4), at.Middle(34, 4));
        at.Needle.GoTo(new Valley(12), new CableRow(4));
        at.Key(":");
        Assert.Equal(at.Piece.Figures[0].Name, at.Needle.Drawing);
        Assert.Contains(at.Said, w => w.StartsWith("Drawing: ", StringComparison.Ordinal));
        at.Stroke(at.Middle(20, 12));
        Assert.Equal(2, at.Piece.Figures.Length);
    }

    [Fact]
    public void In_a_piece_just_opened_what_is_drawn_close_by_a_figure_joins_it_and_far_away_begins_another()
    {
        at.Stroke(at.Middle(10, 4), at.Middle(14, 4));
        var piece = at.Piece;
        at.Desk.Open(piece);
        at.Stroke(at.Middle(16, 5));
        Assert.Single(at.Piece.Figures);
        at.Desk.Open(piece);
        at.Stroke(at.Middle(30, 12));
        Assert.Equal(2, at.Piece.Figures.Length);
    }

    [Fact]
    public void It_is_known_by_its_new_name_and_undone_and_done_again_it_goes_on()
    {
        at.Stroke(at.Middle(10, 4), at.Middle(14, 4));
        at.Desk.Edit("a figure renamed", p => Figures.Rename(p, p.Figures[0].Name, "boat"));
        Assert.Equal("boat", at.Needle.Drawing);
        at.Key("Ctrl+z");
        at.Key("Ctrl+z");
        Assert.Null(at.Needle.Drawing);
        at.Key("Ctrl+y");
        at.Stroke(at.Middle(40, 15));
        Assert.Single(at.Piece.Figures);
    }

    [Fact]
    public void Drawn_on_far_from_its_copies_the_nearest_grows()
    {
        at.Stroke(at.Middle(10, 4), at.Middle(12, 4));
        at.Desk.Edit("repeating", p => Placing.Repeat(p, 0, 2, 30));
        var figure = at.Needle.Drawing!;
        var right = Seat.Of(at.Piece.Placements[0], at.Piece.Figure(figure)!, at.Desk.Work.Pleating, 1);
        at.Stroke(at.Middle(right.Right + 3, 4));
        Assert.Single(at.Piece.Figures);
        Assert.InRange(at.Piece.Figures[0].Width, 5, 7);
    }
}

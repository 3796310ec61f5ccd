using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Chart.Edit;

/// <summary>Figures between a piece and the drawer.</summary>
public class DrawerLaws
{
    private static readonly string[] Colours = ["#b3202c", "#1f4e79", "#c99a4b"];

    /// <summary>A piece with a figure, in colours that are told apart.</summary>
    private static readonly Gen<(Piece Piece, string Figure)> WithFigure = AnyPiece.Pieces.Where(p => p.Figures.Length > 0).Select(p =>
        (p with { Threads = [.. p.Threads.Select((t, i) => t with { Colour = Colour.Parse(Colours[i]) })] }, p.Figures[0].Name));

    /// <summary>A piece that has some of those colours under other letters, near ones, and others.</summary>
    private static readonly Gen<Piece> Other =
        from piece in AnyPiece.Pieces
        from letters in Gen.Shuffle("abcxyz".ToCharArray())
        from which in Gen.Int[0, 7]
        select piece with
        {
            Figures = [], Placements = [], Bands = [],
            Threads = [.. ((string[])[.. Colours.Where((_, i) => (which >> i & 1) == 1), "#c0323a", "#333333"]).Select((c, i) => new Floss(new ThreadKey(letters[i]), c, Colour.Parse(c), 4 - (c == Colours[2] ? 1 : 0)))],
        };

    private static string Shown(Piece piece, Figure figure) => string.Join('\n', figure.Rows.Select(r => string.Join(' ', r.Select(c => c == Figure.Bare ? "." : piece.Thread(new ThreadKey(c))!.Colour.ToString()))));

    [Fact]
    public void A_figure_taken_out_and_put_elsewhere_is_the_same_in_every_cell() => Gen.Select(WithFigure, Other, Gen.Int[1, 40], Gen.Int[0, 20]).Sample((from, other, valley, row) =>
    {
        var kept = Drawer.Take(from.Piece, from.Figure);
        var put = Drawer.Put(other, kept, new Valley(valley), new CableRow(row));
        AnyPiece.Sound(put.Piece);
        var figure = put.Piece.Figure(put.Figure)!;
        Assert.Equal(Shown(from.Piece, from.Piece.Figure(from.Figure)!), Shown(put.Piece, figure)); // whatever the letters
        Assert.Equal(other.Threads, put.Piece.Threads.Take(other.Threads.Length));
        var placed = Assert.Single(put.Piece.Placements);
        Assert.Equal((put.Figure, kept.BaseRow), (placed.Figure, placed.FigureRow));
        // Taken out of there it is the very figure: its identity and its state.
        var again = Drawer.Take(put.Piece, put.Figure);
        Assert.Equal((kept.Id, kept.State, kept.BaseRow), (again.Id, again.State, again.BaseRow));
        Assert.Equal(new FigureOrigin(kept.Id, kept.State, FigureMark.OfStitches(figure), kept.BaseRow), figure.From);
    }, threads: 1);

    [Fact]
    public void Its_identity_outlives_names_letters_and_changes_and_its_state_only_names_and_letters() => WithFigure.Sample((piece, name) =>
    {
        var kept = Drawer.Take(piece, name);
        var noted = Drawer.Noted(piece, name, kept);
        var renamed = Figures.Rename(noted, name, "another name");
        var relettered = Threads.Change(renamed, renamed.Threads[0].Key, renamed.Threads[0] with { Key = new ThreadKey('Q') });
        var later = Drawer.Take(relettered, "another name");
        Assert.Equal((kept.Id, kept.State), (later.Id, later.State));
        Assert.Equal(relettered.Figure("another name")!.From!.As, FigureMark.OfStitches(relettered.Figure("another name")!)); // not changed by it
        var changed = Rows.Insert(relettered, "another name", 0);
        later = Drawer.Take(changed, "another name");
        Assert.Equal(kept.Id, later.Id);
        Assert.NotEqual(kept.State, later.State);
        Assert.NotEqual(changed.Figure("another name")!.From!.As, FigureMark.OfStitches(changed.Figure("another name")!));
        AnyPiece.Sound(changed);
    }, threads: 1);

    [Fact]
    public void A_newer_state_keeps_every_placement_on_its_centre_and_gathering_row() => Gen.Select(WithFigure, WithFigure).Sample((one, other) =>
    {
        var first = Drawer.Take(one.Piece, one.Figure);
        var piece = Drawer.Noted(one.Piece, one.Figure, first);
        var newer = Drawer.Take(other.Piece, other.Figure) with { Id = first.Id };
        var renewed = Drawer.Renew(piece, one.Figure, newer);
        AnyPiece.Sound(renewed.Piece);
        Assert.Equal(piece.Placements.Select(p => p with { FigureRow = 0 }), renewed.Piece.Placements.Select(p => p with { FigureRow = 0 }));
        var figure = renewed.Piece.Figure(one.Figure)!;
        Assert.Equal(Shown(other.Piece, other.Piece.Figure(other.Figure)!), Shown(renewed.Piece, figure));
        Assert.Equal((newer.Id, newer.State, newer.BaseRow), (figure.From!.Figure, figure.From.State, figure.From.BaseRow));
        // A placement that lay by the base row lies by the new one.
        foreach (var (was, now) in piece.Placements.Zip(renewed.Piece.Placements).Where(p => p.First.Figure == one.Figure))
            if (was.FigureRow == first.BaseRow) Assert.Equal(newer.BaseRow, now.FigureRow);
        // The same state once more changes not a stitch.
        Assert.Equal(AnyPiece.Shown(renewed.Piece), AnyPiece.Shown(Drawer.Renew(renewed.Piece, one.Figure, newer).Piece));
    }, threads: 1);

    [Fact]
    public void Put_back_unchanged_it_is_what_the_drawer_has_even_where_a_near_thread_was_taken() => Gen.Select(WithFigure, Other).Sample((from, other) =>
    {
        var kept = Drawer.Take(from.Piece, from.Figure);
        var answers = ThreadMatching.Of(other.Threads, kept.Threads).Where(m => m.Fit == ThreadFit.InDoubt).ToDictionary(m => m.From.Key, m => (ThreadKey?)m.Choices[0].Thread.Key);
        var put = Drawer.Put(other, kept, new Valley(3), new CableRow(2), answers);
        Assert.Equal(kept.State, Drawer.Return(put.Piece, put.Figure, kept).State);
        var changed = Rows.Insert(put.Piece, put.Figure, 0);
        var back = Drawer.Return(changed, put.Figure, kept);
        Assert.Equal((kept.Id, kept.Name, kept.Figure.Height + 1, kept.BaseRow + 1), (back.Id, back.Name, back.Figure.Height, back.BaseRow));
        Assert.Equal(kept.Threads.Select(t => t.Colour).Order(Comparer<Colour>.Create((a, b) => string.CompareOrdinal(a.ToString(), b.ToString()))), back.Threads.Select(t => t.Colour).Order(Comparer<Colour>.Create((a, b) => string.CompareOrdinal(a.ToString(), b.ToString()))));
    }, threads: 1);

    [Fact]
    public void By_itself_it_lies_on_cloth_that_holds_all_of_it() => WithFigure.Sample((piece, name) =>
    {
        var kept = Drawer.Take(piece, name);
        var work = Work.Lay(BareCloth.Around(kept.Figure, kept.Threads, kept.BaseRow, kept.Gauge, kept.Name, 2));
        Assert.Equal(kept.Figure.Rows.Sum(r => r.Count(c => c != Figure.Bare)), work.Cables);
        Assert.Empty(work.Strays);
        work = Work.Lay(BareCloth.Pictured(kept, 1.6));
        Assert.Equal(kept.Figure.Rows.Sum(r => r.Count(c => c != Figure.Bare)), work.Cables);
    }, threads: 1);

    [Fact]
    public void Another_gauge_and_what_falls_off_are_said()
    {
        Gauge drawn = Gauge.FromPleatsPerInch(16, Length.FromInches(0.2), Length.Parse("3/8 in"), 5), here = Gauge.FromPleatsPerInch(12, Length.FromInches(0.25), Length.FromInches(0.375), 4);
        Assert.Equal("It was drawn for 16 pleats an inch and 5 cable rows in 3/8 in; here it comes out 33 % wider and 25 % higher.", DrawerWords.Of(new GaugeFit(drawn, here)));
        Assert.Equal("", DrawerWords.Of(new GaugeFit(drawn, drawn)));
        var small = new Piece("small", new ClothPlan(new Panel(Length.FromInches(1)), here, 2), [Some.Floss('r', "#b3202c")], [], []);
        var put = Drawer.Put(small, new KeptFigure(new Figure("bar", [new string('r', 20)]), [Some.Floss('r', "#b3202c")], drawn), new Valley(6), new CableRow(2));
        Assert.Equal("9 cables lie off the cloth.", DrawerWords.Of(LeftOut.Of(Work.Lay(put.Piece), put.Figure)));
    }
}
